//! Every error that reaches the trader: what happened, what to do, and one button.

use crate::shell::fault::Fault;
use crate::shell::picture::Unkept;
use crate::shell::save::Unsaved;
use haulwren_core::book::Refusal;

/// What the notice's button does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cure {
    /// Writes the book, or what this session holds of it, to a file.
    SaveCopy,
    /// Loads the page anew.
    Reload,
    /// Opens the rescue page.
    Rescue,
    /// Puts the notice away.
    Dismiss,
}

impl Cure {
    /// The button's words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::SaveCopy => "Save copy",
            Self::Reload => "Reload",
            Self::Rescue => "Rescue my book",
            Self::Dismiss => "Put away",
        }
    }
}

/// One error as shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// What happened, in one sentence.
    pub fact: String,
    /// What to do about it.
    pub hint: String,
    /// The button.
    pub cure: Cure,
    /// One more, for what comes after that.
    pub then: Option<Cure>,
}

impl Notice {
    fn new(fact: &str, hint: impl Into<String>, cure: Cure) -> Self {
        Self {
            fact: fact.to_owned(),
            hint: hint.into(),
            cure,
            then: None,
        }
    }

    /// With one more key: what is to be done after the first.
    fn then(self, cure: Cure) -> Self {
        let then = Some(cure);
        Self { then, ..self }
    }

    /// The book is back from its second copy.
    pub fn restored(changes: usize) -> Self {
        Self::new(
            "The browser had lost what you saved; it is back.",
            format!(
                "It was in a second copy: {changes} changes. Save a copy elsewhere now and then."
            ),
            Cure::SaveCopy,
        )
    }

    /// The book was built anew from its history.
    pub fn mended() -> Self {
        Self::new(
            "Something that was stored did not read back; it is mended.",
            "The book was built anew from all that was ever saved. Save a copy elsewhere now and then.",
            Cure::SaveCopy,
        )
    }

    /// The book is open for reading only.
    pub fn only_reading(damaged: &str) -> Self {
        Self::new(
            "The book is open for reading only.",
            format!(
                "{damaged} on this device can\u{2019}t be read, and no second copy has it. Save a copy of all the rest first. If another device has the book: save a copy there, erase this device under Set up, Devices, and open that copy on it."
            ),
            Cure::SaveCopy,
        )
    }

    /// The storage could not be opened at all; the app goes on without it.
    pub fn nothing_kept(fault: &Fault) -> Self {
        let hint = match fault {
            Fault::Absent => {
                "This browser has no storage. Weigh things up as you like, and save a copy before you close the page."
            }
            Fault::Full => {
                "The storage of this device is full. Make room, then reload. Until then, save a copy before you close the page."
            }
            _ => {
                "The browser blocks storage here, as private windows do. Allow it, then reload. Until then, save a copy before you close the page."
            }
        };
        Self::new("Nothing is kept on this device.", hint, Cure::SaveCopy)
    }

    /// The book is there but cannot be opened by this app.
    pub fn cannot_open(fault: &Fault) -> Self {
        match fault {
            Fault::Newer => Self::new(
                "This book was last used by a newer version.",
                "Load the page anew to get that version. Nothing is lost.",
                Cure::Reload,
            ),
            fault => Self::new(
                "The book does not open.",
                format!(
                    "What you saved is on this device, but its storage does not read it now ({fault}); it may be full. Make room, write the book to a file, then reload."
                ),
                Cure::Rescue,
            )
            .then(Cure::Reload),
        }
    }

    /// A save that did not happen. What was typed still stands in the form.
    pub fn unsaved(why: &Unsaved) -> Self {
        match why {
            Unsaved::Refused(refusal) => Self::from(refusal.clone()),
            Unsaved::Fault(fault) => Self::storage("Not saved.", fault),
        }
    }

    /// A save that is in the book on the page, and not where it can be trusted.
    pub fn not_safe() -> Self {
        Self::new(
            "It is in the book, but not kept safely yet.",
            "The storage of this device failed; it may be full. Make room, and save a copy before you close the page.",
            Cure::SaveCopy,
        )
    }

    /// Something else that the storage would not do.
    pub fn storage(fact: &str, fault: &Fault) -> Self {
        match fault {
            Fault::Full => Self::new(
                fact,
                "The storage is full. Make room on this device and try again. What you typed still stands.",
                Cure::SaveCopy,
            ),
            Fault::Lost(_) => Self::new(
                fact,
                "The connection to the storage was lost; the device may be full. Save a copy first, then reload the page. What you typed stands.",
                Cure::SaveCopy,
            )
            .then(Cure::Reload),
            Fault::ReadOnly => Self::new(
                fact,
                "The book is open for reading only, since a part of it can\u{2019}t be read. Save a copy.",
                Cure::SaveCopy,
            ),
            Fault::MovedBack => Self::new(
                fact,
                "What is stored is another book than the one on this page. Save a copy of this one first, then reload the page. What you typed is kept.",
                Cure::SaveCopy,
            )
            .then(Cure::Reload),
            fault => Self::new(
                fact,
                format!("The storage says: {fault}. Try again, or save a copy."),
                Cure::SaveCopy,
            ),
        }
    }

    /// A part of the app that comes late has not come.
    pub fn not_fetched() -> Self {
        Self::new(
            "A part of the app could not be fetched.",
            "Look for signal and try again; if it stays so, reload the page.",
            Cure::Reload,
        )
    }

    /// Two devices went by one code.
    pub fn new_code(is_anew: bool) -> Self {
        Self::new(
            "Another device goes by the code of this one.",
            if is_anew {
                "One was set up from a copy of the other. This device has a code of its own now, and what it saved alone since then goes by that. Reload the page, open the file once more, and name this device under Set up, Devices."
            } else {
                "One was set up from a copy of the other, and a third device rests on what this one saved since. This device has a code of its own now, and keeps all it has. The other one can\u{2019}t be joined with it any more: erase that one, and open this one\u{2019}s book on it."
            },
            Cure::Reload,
        )
    }

    /// A picture that was not kept.
    pub fn no_picture(why: &Unkept) -> Self {
        match why {
            Unkept::NoPicture => Self::new(
                "No picture was kept.",
                "This browser can\u{2019}t read the file as a picture. Try another one.",
                Cure::Dismiss,
            ),
            Unkept::NoStorage => Self::new(
                "No picture was kept.",
                "Nothing is kept on this device.",
                Cure::SaveCopy,
            ),
            Unkept::Fault(fault) => Self::storage("No picture was kept.", fault),
        }
    }

    /// The sample was neither opened nor left.
    pub fn no_sample() -> Self {
        Self::new(
            "The sample can\u{2019}t be opened here.",
            "This browser keeps no notes for a page, as private windows do. Begin a book of your own instead.",
            Cure::Dismiss,
        )
    }

    /// The book left as a file that does not hold all of it.
    pub fn copy_lacks(changes: u64) -> Self {
        let (are, they) = if changes == 1 {
            ("1 change is", "It")
        } else {
            ("changes are", "They")
        };
        let count = if changes == 1 {
            String::new()
        } else {
            format!("{changes} ")
        };
        Self::new(
            "The copy does not hold the whole book.",
            format!(
                "{count}{are} not in it. {they} can\u{2019}t be read on this device now. Keep the copy, make room on the device, reload, and save another one."
            ),
            Cure::SaveCopy,
        )
        .then(Cure::Reload)
    }

    /// The book did not leave as a file.
    pub fn copy_failed(why: &str) -> Self {
        Self::new(
            "No copy was saved.",
            format!("The browser says: {why}. Try the rescue page."),
            Cure::Rescue,
        )
    }
}

impl From<Refusal> for Notice {
    fn from(refusal: Refusal) -> Self {
        Self::new(&refusal.to_string(), "", Cure::Dismiss)
    }
}
