//! Bringing in a file, a book's or one of pictures, sealed or not: looked into first, then taken.

use super::Store;
use crate::live::{Live, Worked, of_the_page, worked};
use crate::notice::Notice;
use crate::shell::bring::{self, Found, Unread};
use crate::shell::db::Db;
use crate::shell::picture_files::{self, FoundPictures};
use crate::shell::sealed::{Passphrase, Unopened};
use crate::shell::source::{self, Chosen, Locked, Source};
use haulwren_core::book::{Group, Touched};
use haulwren_core::exchange::sealed::SealedError;
use haulwren_core::exchange::{FileKind, Meeting, ReadError};
use haulwren_core::view::Effect;
use leptos::task::spawn_local;
use std::cell::OnceCell;
use uuid::Uuid;
use web_sys::Blob;

/// How far bringing in a file is.
#[derive(Clone)]
pub enum Bringing {
    /// Nothing was chosen yet.
    Idle,
    /// The file is being read: kilobytes, of all.
    Reading(usize, usize),
    /// It is sealed: the passphrase is asked for. And why again, when one did not open it.
    Locked(Locked, String),
    /// It was read, and this is what it brings.
    Found(Found),
    /// It was read, and these pictures are in it.
    Pictures(FoundPictures),
    /// It is being taken: steps done, of all.
    Taking(usize, usize),
    /// It is in; and whether more parts of the book are to come.
    Done(Found, bool),
    /// It is being taken out again: steps done, of all.
    Undoing(usize, usize),
    /// So many pictures came in.
    DonePictures(usize),
    /// It was not taken, and why.
    Refused(String),
}

thread_local! {
    static BRINGING: OnceCell<Live<Bringing>> = const { OnceCell::new() };
    static BROUGHT: OnceCell<Worked<bool>> = const { OnceCell::new() };
}

/// How far bringing in a file is. Of no screen: what came in stays told on all of them until it is put away.
pub fn bringing() -> Live<Bringing> {
    let idle = || Live::new(Bringing::Idle);
    BRINGING.with(|bringing| *bringing.get_or_init(|| of_the_page(idle)))
}

/// Puts away what a file brought, or lets go of what was found in it.
pub fn put_away() {
    bringing().set(Bringing::Idle);
}

/// What the last file did to a thing or a lot, as long as it is not put away; nothing where it brought the whole book, since all is new
/// then. Follows that, and not how far a file is.
pub fn effect_on(id: Uuid) -> Option<Effect> {
    if !is_brought().get() {
        return None;
    }
    bringing().with_untracked(|now| match now {
        Bringing::Done(found, _) if found.incoming.meeting != Meeting::Fresh => {
            found.weighed.listed.get(&id).copied()
        }
        _ => None,
    })
}

fn is_brought() -> Worked<bool> {
    let is_done = || bringing().with(|now| matches!(now, Bringing::Done(..)));
    BROUGHT.with(|brought| *brought.get_or_init(|| of_the_page(|| worked(is_done))))
}

impl Store {
    /// Reads a file and tells what it would bring, or asks for its passphrase. Nothing is changed.
    pub fn look_into(self, file: Blob) {
        let told = bringing();
        told.set(Bringing::Reading(0, 0));
        spawn_local(async move {
            let now = match source::look_at(file).await {
                Ok(Chosen::Plain(source)) => self.found(&source).await,
                Ok(Chosen::Locked(locked)) => Bringing::Locked(locked, String::new()),
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            };
            told.set(now);
        });
    }

    /// Reads a sealed file by its passphrase; a wrong one is asked for again.
    pub fn unlock(self, locked: Locked, typed: &str) {
        let told = bringing();
        let Some(passphrase) = Passphrase::of(typed) else {
            let why = "Type the passphrase.".to_owned();
            return told.set(Bringing::Locked(locked, why));
        };
        told.set(Bringing::Reading(0, 0));
        spawn_local(async move {
            let now = match locked.open(&passphrase).await {
                Ok(source) => self.found(&source).await,
                Err(why @ Unread::Unopened(Unopened::Unfit(SealedError::WrongPassphrase))) => {
                    Bringing::Locked(locked, self.why_unread(&why))
                }
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            };
            told.set(now);
        });
    }

    async fn found(self, source: &Source) -> Bringing {
        let told = bringing();
        let Some(db) = self.inner.db.borrow().clone() else {
            return Bringing::Refused(NOWHERE.to_owned());
        };
        let progress = |done, all| told.set(Bringing::Reading(done, all));
        let book = &self.inner.book;
        let found = match source.kind().await {
            Ok(FileKind::Photos) => picture_files::read(&db, book, source, &progress)
                .await
                .map(Bringing::Pictures),
            Ok(_) => bring::read(&db, book, source, &progress)
                .await
                .map(Bringing::Found),
            Err(why) => Err(why),
        };
        match found {
            Ok(found) => found,
            Err(why) => {
                self.mend_code(&db, &why).await;
                Bringing::Refused(self.why_unread(&why))
            }
        }
    }

    /// Keeps the pictures that were found in a file.
    pub fn keep_pictures(self, found: FoundPictures) {
        let told = bringing();
        let Some(db) = self.inner.db.borrow().clone() else {
            return told.set(Bringing::Refused(NOWHERE.to_owned()));
        };
        told.set(Bringing::Taking(0, 0));
        self.saving.set(true);
        spawn_local(async move {
            let progress = |done, all| told.set(Bringing::Taking(done, all));
            let taken = picture_files::take(&db, &self.inner.book, &found, &progress).await;
            self.saving.set(false);
            told.set(match taken {
                Ok(()) => Bringing::DonePictures(found.new.len()),
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            });
            // Pages that wait for them look again.
            self.bump(Touched::only(Group::Pictures));
        });
    }

    /// A file that says something else under this device's own code was written by a device that has the same.
    async fn mend_code(self, db: &Db, why: &Unread) {
        let me = self.inner.book.borrow().me;
        let after = match why {
            Unread::Unfit(ReadError::OtherWords { device, seq, .. }) if *device == me => seq - 1,
            _ => return,
        };
        let notice = match bring::take_new_code(db, &self.inner.book, after).await {
            Ok(is_anew) => Notice::new_code(is_anew),
            Err(fault) => Notice::storage("This device has no code of its own yet.", &fault),
        };
        if let Some(tabs) = &*self.inner.tabs.borrow() {
            tabs.tell_again();
        }
        self.notice.set(Some(notice));
    }

    pub(super) fn why_unread(self, why: &Unread) -> String {
        match why {
            Unread::Unfit(error) => {
                let book = self.inner.book.borrow();
                error.sentence(&|device| book.name_of(device))
            }
            Unread::Unopened(Unopened::Unfit(error)) => error.to_string(),
            Unread::Unopened(Unopened::NoCipher(why)) => {
                format!("This browser has no ciphers for this page ({why}). Open the app by https.")
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

pub(super) const NOWHERE: &str = "Nothing is kept on this device, so no file can be brought in.";
