//! What is to be asked of the book once a file's changes are folded in, so that it is one book with settings that do not clash.

use super::{Incoming, Meeting, fold_in};
use crate::book::{Command, Joining, State};

impl Incoming {
    /// The command that follows, told once all is folded in; the book refuses it with
    /// [`NoChange`](crate::book::Refusal::NoChange) where nothing is left to do.
    ///
    /// `before` is taken down before the changes are folded in. Of two used books the one here stays, and its settings hold. Where
    /// nothing was done here yet, the file's book and its settings do. In a book that is the same already nothing has to be mended.
    /// `device` is what this device is called where it has no name in the book yet.
    #[must_use]
    pub fn follow_up(&self, before: &Joining, device: &str) -> Option<Command> {
        let joining = match self.meeting {
            Meeting::Same => return None,
            Meeting::Two => before.clone(),
            Meeting::Fresh => self.settings(),
        };
        let device = device.to_owned();
        Some(Command::Join { joining, device })
    }

    /// The file's own book and settings.
    fn settings(&self) -> Joining {
        let mut theirs = State::new(self.header.sender);
        fold_in(&mut theirs, &self.changes, Vec::new());
        Joining::before(&theirs).of_book(self.header.book)
    }
}
