//! Bringing in a book file: looked into first, then taken.

use super::Store;
use super::saving::in_context;
use crate::live::Live;
use crate::notice::{Cure, Notice};
use crate::shell::bring::{self, Found, Unread};
use crate::shell::db::Db;
use crate::shell::device;
use crate::shell::page;
use crate::shell::save::Unsaved;
use crate::shell::second;
use haulwren_core::book::{Command, Joining, Refusal, State, Touched};
use haulwren_core::exchange::ReadError;
use leptos::task::spawn_local;
use web_sys::Blob;

/// How far bringing in a file is.
#[derive(Clone)]
pub enum Bringing {
    /// Nothing was chosen yet.
    Idle,
    /// The file is being read: kilobytes, of all.
    Reading(usize, usize),
    /// It was read, and this is what it brings.
    Found(Found),
    /// It is being taken: steps done, of all.
    Taking(usize, usize),
    /// It is in.
    Done(Found),
    /// It is being taken out again: steps done, of all.
    Undoing(usize, usize),
    /// It was not taken, and why.
    Refused(String),
}

impl Store {
    /// Reads a file and tells what it would bring. Nothing is changed.
    pub fn look_into(self, file: Blob, told: Live<Bringing>) {
        told.set(Bringing::Reading(0, 0));
        spawn_local(async move {
            let Some(db) = self.inner.db.borrow().clone() else {
                return told.set(Bringing::Refused(NOWHERE.to_owned()));
            };
            let progress = |done, all| told.set(Bringing::Reading(done, all));
            let found = bring::read(&db, &self.inner.book, &file, &progress).await;
            told.set(match found {
                Ok(found) => Bringing::Found(found),
                Err(why) => {
                    self.mend_code(&db, &why).await;
                    Bringing::Refused(self.why_unread(&why))
                }
            });
        });
    }

    /// A file that says something else under this device's own code was written by a device that has the same.
    async fn mend_code(self, db: &Db, why: &Unread) {
        let me = self.inner.book.borrow().me;
        if !matches!(why, Unread::Unfit(ReadError::OtherWords { device, .. }) if *device == me) {
            return;
        }
        let notice = match bring::take_new_code(db, &self.inner.book).await {
            Ok(()) => Notice::new_code(),
            Err(fault) => Notice::storage("This device has no code of its own yet.", &fault),
        };
        if let Some(tabs) = &*self.inner.tabs.borrow() {
            tabs.tell_again();
        }
        self.notice.set(Some(notice));
    }

    /// Takes what was found in a file.
    pub fn bring_in(self, found: Found, told: Live<Bringing>) {
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
            let taken = bring::take(&db, &self.inner.book, &found, &progress).await;
            self.saving.set(false);
            if let Err(why) = taken {
                return self.not_taken(&why, told);
            }
            self.bump(ALL);
            let second = self.inner.second.borrow().clone();
            if let Some(second) = second {
                second::agree_again(&db, &second).await;
            }
            let follow_up = found.incoming.follow_up(&before, device::likely_name());
            if let Some(command) = follow_up {
                self.make_one(command).await;
            }
            self.mark_saved();
            if let Some(tabs) = &*self.inner.tabs.borrow() {
                tabs.tell(self.inner.book.borrow().head());
            }
            told.set(Bringing::Done(found));
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
    pub fn undo_import(self, told: Live<Bringing>) {
        told.set(Bringing::Undoing(0, 0));
        self.saving.set(true);
        spawn_local(async move {
            let Some(db) = self.inner.db.borrow().clone() else {
                return;
            };
            let progress = |done, all| told.set(Bringing::Undoing(done, all));
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

    fn not_taken(self, why: &Unread, told: Live<Bringing>) {
        let Unread::NotFolded(fault) = why else {
            return told.set(Bringing::Refused(self.why_unread(why)));
        };
        self.bump(ALL);
        self.notice.set(Some(Notice {
            fact: "The file is in the book, but not all of it is laid out yet.".to_owned(),
            hint: format!("Reload the page: the rest is done then. What stopped it: {fault}."),
            cure: Cure::Reload,
        }));
        told.set(Bringing::Idle);
    }

    fn why_unread(self, why: &Unread) -> String {
        match why {
            Unread::Unfit(error) => {
                let book = self.inner.book.borrow();
                error.sentence(&|device| book.name_of(device))
            }
            Unread::NoFile => {
                "The browser does not hand out this file. Choose it once more.".to_owned()
            }
            Unread::MovedOn => {
                "The book has moved on since the file was looked at. Choose it once more."
                    .to_owned()
            }
            Unread::Fault(fault) | Unread::NotFolded(fault) => {
                let notice = Notice::storage("The file was not brought in.", fault);
                [notice.fact, notice.hint].join(" ")
            }
        }
    }
}

const TOO_LATE: &str = "Something was saved, or a file written, since it came in. What it changed can still be put back one by one: see the history of each thing.";
/// A file may bring anything.
const ALL: Touched = Touched {
    setup: true,
    haul: true,
};

const NOWHERE: &str = "Nothing is kept on this device, so no file can be brought in.";
