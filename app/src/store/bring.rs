//! Bringing in a file, a book's or one of pictures, sealed or not: looked into first, then taken.

use super::Store;
use crate::live::Live;
use crate::notice::Notice;
use crate::shell::bring::{self, Found, Unread};
use crate::shell::picture_files::{self, FoundPictures};
use crate::shell::sealed::{Passphrase, Unopened};
use crate::shell::source::{self, Chosen, Locked, Source};
use crate::shell::{device, second};
use haulwren_core::book::{Command, Touched};
use haulwren_core::exchange::FileKind;
use haulwren_core::exchange::sealed::SealedError;
use leptos::task::spawn_local;
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
    /// So many changes came in; and whether more parts of the book are to come.
    Done(usize, bool),
    /// So many pictures came in.
    DonePictures(usize),
    /// It was not taken, and why.
    Refused(String),
}

impl Store {
    /// Reads a file and tells what it would bring, or asks for its passphrase. Nothing is changed.
    pub fn look_into(self, file: Blob, told: Live<Bringing>) {
        told.set(Bringing::Reading(0, 0));
        spawn_local(async move {
            let now = match source::look_at(file).await {
                Ok(Chosen::Plain(source)) => self.found(&source, told).await,
                Ok(Chosen::Locked(locked)) => Bringing::Locked(locked, String::new()),
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            };
            told.set(now);
        });
    }

    /// Reads a sealed file by its passphrase; a wrong one is asked for again.
    pub fn unlock(self, locked: Locked, typed: &str, told: Live<Bringing>) {
        let Some(passphrase) = Passphrase::of(typed) else {
            let why = "Type the passphrase.".to_owned();
            return told.set(Bringing::Locked(locked, why));
        };
        told.set(Bringing::Reading(0, 0));
        spawn_local(async move {
            let now = match locked.open(&passphrase).await {
                Ok(source) => self.found(&source, told).await,
                Err(why @ Unread::Unopened(Unopened::Unfit(SealedError::WrongPassphrase))) => {
                    Bringing::Locked(locked, self.why_unread(&why))
                }
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            };
            told.set(now);
        });
    }

    async fn found(self, source: &Source, told: Live<Bringing>) -> Bringing {
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
        found.unwrap_or_else(|why| Bringing::Refused(self.why_unread(&why)))
    }

    /// Keeps the pictures that were found in a file.
    pub fn keep_pictures(self, found: FoundPictures, told: Live<Bringing>) {
        told.set(Bringing::Taking(0, 0));
        self.saving.set(true);
        spawn_local(async move {
            let Some(db) = self.inner.db.borrow().clone() else {
                return;
            };
            let progress = |done, all| told.set(Bringing::Taking(done, all));
            let taken = picture_files::take(&db, &self.inner.book, &found, &progress).await;
            self.saving.set(false);
            told.set(match taken {
                Ok(()) => Bringing::DonePictures(found.new.len()),
                Err(why) => Bringing::Refused(self.why_unread(&why)),
            });
            // Pages that wait for them look again.
            self.bump(Touched {
                setup: false,
                haul: true,
            });
        });
    }

    /// Takes what was found in a file.
    pub fn bring_in(self, found: Found, told: Live<Bringing>) {
        told.set(Bringing::Taking(0, 0));
        self.saving.set(true);
        // Detached: a screen that goes away must not drop it half-way.
        spawn_local(async move {
            let Some(db) = self.inner.db.borrow().clone() else {
                return;
            };
            let progress = |done, all| told.set(Bringing::Taking(done, all));
            let taken = bring::take(&db, &self.inner.book, &found, &progress).await;
            self.saving.set(false);
            if let Err(why) = taken {
                return told.set(Bringing::Refused(self.why_unread(&why)));
            }
            self.bump(Touched {
                setup: true,
                haul: true,
            });
            let second = self.inner.second.borrow().clone();
            if let Some(second) = second {
                second::agree_again(&db, &second).await;
            }
            let stays = found.incoming.header.book;
            let device = device::likely_name().to_owned();
            let is_one = self.inner.book.borrow().only_book(stays).is_empty();
            let is_named = {
                let book = self.inner.book.borrow();
                book.device(book.me).is_some()
            };
            if !(is_one && is_named) {
                self.dispatch(Command::OneBook { stays, device }, |_| {});
            }
            self.mark_saved();
            if let Some(tabs) = &*self.inner.tabs.borrow() {
                tabs.tell(self.inner.book.borrow().head());
            }
            let count = found.incoming.changes.len();
            told.set(Bringing::Done(count, self.is_part_of_more(&found)));
        });
    }

    /// Whether a part was read, and the sender has more than is here now.
    fn is_part_of_more(self, found: &Found) -> bool {
        let header = &found.incoming.header;
        let book = self.inner.book.borrow();
        let mut has = header.have.iter();
        header.part.is_some() && has.any(|key| key.seq > book.vector.of(key.device))
    }

    fn why_unread(self, why: &Unread) -> String {
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
            Unread::Fault(fault) => {
                let notice = Notice::storage("The file was not brought in.", fault);
                [notice.fact, notice.hint].join(" ")
            }
        }
    }
}

const NOWHERE: &str = "Nothing is kept on this device, so no file can be brought in.";
