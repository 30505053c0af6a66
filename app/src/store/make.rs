//! The book as files: a copy to keep, or what another device lacks, with pictures and sealed where the trader wants it. All of it comes from
//! the storage. When that does not give it, the file holds what else is known, and says how much is not in it.

use super::Store;
use crate::notice::Notice;
use crate::shell::db::{CHANGES, Db, text};
use crate::shell::fault::{Fault, said};
use crate::shell::files::{self, Left};
use crate::shell::sealed::{Passphrase, Unopened};
use crate::shell::written::{Unwritten, Writing, Written};
use crate::shell::{clock, picture_files, scope, second};
use haulwren_core::change::{Change, Vector};
use haulwren_core::exchange::{Header, PhotoHeader, without_holes};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use std::cell::RefCell;
use std::rc::Rc;

/// What goes into files.
#[derive(Clone, Default)]
pub struct Going {
    /// The device that they are for, when only what it lacks shall go.
    pub to: Option<DeviceCode>,
    /// Whether pictures go along.
    pub pictures: bool,
    /// What seals them.
    pub passphrase: Option<Passphrase>,
}

impl Store {
    /// Writes the whole book to a file and hands it out. Says how it left, or shows a notice; what is not in it is said by one too.
    pub async fn save_copy(self) -> Option<Left> {
        let (going, quiet) = (Going::default(), |_, _| {});
        let left = async {
            let files = self.write_files(&going, &quiet).await?;
            let left = self.hand_over(&files, files::likes_sharing(), true).await?;
            Ok::<_, String>((left, lacking(&files)))
        };
        match left.await {
            Ok((left, 0)) => Some(left),
            Ok((_, lacks)) => {
                self.notice.set(Some(Notice::copy_lacks(lacks)));
                None
            }
            Err(why) => {
                self.notice.set(Some(Notice::copy_failed(&why)));
                None
            }
        }
    }

    /// Makes the files. Tells how far it is: done, of all. Else why they were not made.
    pub async fn write_files(
        self,
        going: &Going,
        progress: &dyn Fn(usize, usize),
    ) -> Result<Vec<Written>, String> {
        if scope::is_sample() {
            return Err("sample data never goes into a file".to_owned());
        }
        let db = self.inner.db.borrow().clone();
        let written = self.written(db.as_deref(), going, progress).await;
        written?.map_err(|why| match why {
            Unwritten::Fault(fault) => fault.to_string(),
            Unwritten::Short(lacks) => format!("{lacks} changes can\u{2019}t be read"),
            Unwritten::Unsealed(Unopened::NoCipher(why)) => {
                format!("it has no ciphers for this page ({why})")
            }
            Unwritten::Unsealed(Unopened::Unfit(why)) => why.to_string(),
            Unwritten::Browser(error) => said(&error),
        })
    }

    async fn written(
        self,
        db: Option<&Db>,
        going: &Going,
        progress: &dyn Fn(usize, usize),
    ) -> Result<Result<Vec<Written>, Unwritten>, String> {
        let header = self.header().ok_or("there is no book yet")?;
        let day = clock::now().day().map(|day| day.to_string());
        let day = day.unwrap_or_default();
        let photos = PhotoHeader {
            book: header.book,
            sender: header.sender,
        };
        let made = async {
            let mut files = Writing::new(going.passphrase.as_ref());
            let from_disk = match db {
                Some(db) => {
                    let have = has(db, going.to).await;
                    match have {
                        Ok(have) => files.book(db, header.clone(), have, progress).await,
                        Err(fault) => Err(fault.into()),
                    }
                }
                None => Err(Fault::Absent.into()),
            };
            match from_disk {
                Err(why @ (Unwritten::Fault(_) | Unwritten::Short(_))) => {
                    leptos::logging::warn!("the storage does not give the whole book: {why:?}");
                    let changes = self.at_hand().await;
                    if changes.is_empty() {
                        return Err(why);
                    }
                    files = Writing::new(going.passphrase.as_ref());
                    files.at_hand(header, &changes).await?;
                }
                other => other?,
            }
            let mut files = files.named("book", &day);
            if let (Some(db), true) = (db, going.pictures) {
                let named = picture_files::named(&self.inner.book.borrow());
                let mut pictures = Writing::new(going.passphrase.as_ref());
                pictures.photos(db, photos, &named, progress).await?;
                files.extend(pictures.named("photos", &day));
            }
            Ok(files)
        };
        Ok(made.await)
    }

    /// What can still be had of the book: what this session saved, what the database gives, by a new connection too, and what the second copy
    /// has, as far as they go together.
    async fn at_hand(self) -> Vec<Change> {
        let inner = self.inner;
        let db = inner.db.borrow().clone();
        let has_second = inner.second.borrow().is_some();
        let lines = RefCell::new(Vec::new());
        // The connection at hand may be dead. A new one, where there is one, is as good.
        if let Some(at_hand) = db {
            let db = Db::open().await.map_or(at_hand, Rc::new);
            let read = db.each(CHANGES, "", "~", |row| {
                lines.borrow_mut().extend(text(row, "t"));
                Ok(())
            });
            not_all(read.await);
        }
        if has_second && let Some(second) = second::opened_again().await {
            not_all(second.each(|line| lines.borrow_mut().push(line)).await);
        }
        let mut found = inner.session.borrow().clone();
        let book = inner.book.borrow();
        for line in lines.into_inner() {
            // What is only laid beside is no part of the book.
            found.extend(
                Change::from_line(&line)
                    .ok()
                    .filter(|change| change.key.seq <= book.vector.of(change.key.device)),
            );
        }
        without_holes(found)
    }

    fn header(self) -> Option<Header> {
        let book = self.inner.book.borrow();
        let (id, currency) = book.book()?;
        Some(Header::new(id, currency, book.me, book.vector.clone()))
    }
}

fn not_all(read: Result<(), Fault>) {
    if let Err(fault) = read {
        leptos::logging::warn!("not all of it was read: {fault}");
    }
}

/// How many changes of the book are in none of the files.
pub fn lacking(files: &[Written]) -> u64 {
    files.iter().map(|file| file.lacks).max().unwrap_or(0)
}

/// How far a device has the book, by the last file that was read from it.
async fn has(db: &Db, device: Option<DeviceCode>) -> Result<Vector, Fault> {
    let (Some(device), Some(peers)) = (device, db.meta("peers").await?) else {
        return Ok(Vector::default());
    };
    let peers = json::read_object(&peers).map_err(|error| Fault::Damaged(error.to_string()))?;
    let has = peers.get(device.as_str()).map(json::of::<Vector>);
    Ok(has.flatten().unwrap_or_default())
}
