//! Taking into the book what was found in a file, and out of it again.

use super::Store;
use super::bring::{Bringing, NOWHERE, bringing};
use super::saving::in_context;
use crate::notice::{Cure, Notice};
use crate::shell::bring::{self, Found, Unread};
use crate::shell::save::Unsaved;
use crate::shell::{device, page, second};
use haulwren_core::book::{Command, Joining, Refusal, State, Touched};
use leptos::task::spawn_local;

impl Store {
    /// Takes what was found in a file.
    pub fn bring_in(self, found: Found) {
        let told = bringing();
        let Some(db) = self.inner.db.borrow().clone() else {
            return told.set(Bringing::Refused(NOWHERE.to_owned()));
        };
        told.set(Bringing::Taking(0, 0));
        self.saving.set(true);
        // Detached: a screen that goes away must not drop it half-way.
        spawn_local(async move {
            let progress = |done, all| told.set(Bringing::Taking(done, all));
            // Of two books the settings of this one hold: they are noted before anything comes in.
            let before = Joining::before(&self.inner.book.borrow());
            if let Err(fault) = self.made_safe().await {
                self.saving.set(false);
                return self.not_taken(&Unread::Fault(fault));
            }
            let db = self.inner.db.borrow().clone().unwrap_or(db);
            let taken = bring::take(&db, &self.inner.book, &found, &progress).await;
            self.saving.set(false);
            if let Err(why) = taken {
                return self.not_taken(&why);
            }
            self.bump(Touched::ALL);
            let second = self.inner.second.borrow().clone();
            if let Some(second) = second {
                second::agree_again(&db, &second).await;
            }
            let name = free_name(&self.inner.book.borrow());
            let follow_up = found.incoming.follow_up(&before, &name);
            if let Some(command) = follow_up {
                self.make_one(command).await;
            }
            self.acknowledge();
            let more = self.is_part_of_more(&found);
            told.set(Bringing::Done(found, more));
        });
    }

    /// Whether what the last file brought in can be undone as a whole.
    pub async fn can_undo_import(self) -> bool {
        let Some(db) = self.inner.db.borrow().clone() else {
            return false;
        };
        let head = self.inner.book.borrow().head();
        match bring::Undoable::now(&db, head).await {
            Ok(undoable) => undoable.is_some(),
            Err(fault) => {
                leptos::logging::warn!("the last import can't be undone: {fault}");
                false
            }
        }
    }

    /// Undoes what the last file brought in. The page, and that of every other tab, then loads anew with the book as it was.
    pub fn undo_import(self) {
        let told = bringing();
        let Some(db) = self.inner.db.borrow().clone() else {
            return told.set(Bringing::Refused(NOWHERE.to_owned()));
        };
        told.set(Bringing::Undoing(0, 0));
        self.saving.set(true);
        spawn_local(async move {
            let progress = |done, all| told.set(Bringing::Undoing(done, all));
            if let Err(fault) = self.made_safe().await {
                self.saving.set(false);
                return self.not_taken(&Unread::Fault(fault));
            }
            let db = self.inner.db.borrow().clone().unwrap_or(db);
            let undone = bring::undo(&db, &self.inner.book, &progress).await;
            self.saving.set(false);
            match undone {
                Ok(true) => {}
                Ok(false) => return told.set(Bringing::Refused(TOO_LATE.to_owned())),
                Err(fault) => {
                    return told.set(Bringing::Refused(self.why_unread(&Unread::Fault(fault))));
                }
            }
            let second = self.inner.second.borrow().clone();
            if let Some(second) = second {
                second::agree_again(&db, &second).await;
            }
            if let Some(tabs) = &*self.inner.tabs.borrow() {
                tabs.tell_again();
            }
            page::reload();
        });
    }

    /// Makes one book of what came together. That nothing is left to do for it is no refusal.
    async fn make_one(self, command: Command) {
        let plan = |state: &State| in_context(&mut |context| state.decide(&command, context));
        match self.saved(&plan).await {
            Ok(saved) => self.publish(&saved),
            Err(Unsaved::Refused(Refusal::NoChange)) => {}
            Err(why) => self.notice.set(Some(Notice::unsaved(&why))),
        }
    }

    fn not_taken(self, why: &Unread) {
        let told = bringing();
        let Unread::NotFolded(fault) = why else {
            return told.set(Bringing::Refused(self.why_unread(why)));
        };
        self.bump(Touched::ALL);
        self.notice.set(Some(Notice {
            fact: "The file is in the book, but not all of it is laid out yet.".to_owned(),
            hint: format!("Reload the page: the rest is done then. What stopped it: {fault}."),
            cure: Cure::Reload,
            then: None,
        }));
        told.set(Bringing::Idle);
    }

    /// Whether a part was read, and the sender has more than is here now.
    fn is_part_of_more(self, found: &Found) -> bool {
        let header = &found.incoming.header;
        let book = self.inner.book.borrow();
        let mut has = header.have.iter();
        header.part.is_some() && has.any(|key| key.seq > book.vector.of(key.device))
    }
}

/// What this device is called until the trader says otherwise, told apart from the others of the book: "Computer", or "Computer 2".
fn free_name(book: &State) -> String {
    let likely = device::likely_name();
    let is_taken = |name: &str| {
        let mut named = book
            .devices()
            .filter_map(|(_, device)| device.name.as_deref());
        named.any(|taken| taken == name)
    };
    let mut name = likely.to_owned();
    for number in 2.. {
        if !is_taken(&name) {
            break;
        }
        name = format!("{likely} {number}");
    }
    name
}

const TOO_LATE: &str = "Something was saved, or a file written, since it came in. What it changed can still be put back one by one: see the history of each thing.";
