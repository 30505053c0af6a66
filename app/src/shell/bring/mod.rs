//! Bringing in a book file: read and checked whole, laid beside the book, taken at one point, then folded in.
//!
//! A stop at any moment leaves all of it or none: what is only laid beside is thrown away at the next start, what was taken is folded in
//! then. Nothing reads changes that are laid beside: undo, histories and copies share the book's lock, and an import that fails clears away
//! what it had laid. A tab that reads on what another one brought in goes by the vector, which counts nothing that is laid beside.

mod code;
mod finish;
mod look;
mod note;
mod undo;

pub use code::take_new_code;
pub use finish::settle;
pub use look::{Found, read};
pub use undo::{Undoable, spoil, undo};

use super::db::{CHANGES, Db, META, RECORDS, Strict};
use super::fault::Fault;
use super::lock;
use super::save::{self, Head};
use super::sealed::Unopened;
use futures::future::join_all;
use haulwren_core::book::State;
use haulwren_core::change::RecordKey;
use haulwren_core::exchange::{Incoming, Line, ReadError};
use haulwren_core::json;
use note::{Note, Stage};
use std::cell::RefCell;

/// Changes laid beside the book, or records folded, in one transaction.
const BATCH: usize = 500;

/// Why a file was not brought in, or not wholly. But for the last the book is as it was.
#[derive(Debug)]
pub enum Unread {
    /// The file is not one that fits.
    Unfit(ReadError),
    /// It is sealed, and does not open.
    Unopened(Unopened),
    /// The browser does not hand it out.
    NoFile,
    /// The book moved on since the file was looked at.
    MovedOn,
    /// The storage failed.
    Fault(Fault),
    /// All of it is in the book; but the storage failed before it was folded in, which the next start makes up for.
    NotFolded(Fault),
}

impl From<Fault> for Unread {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl From<Unopened> for Unread {
    fn from(why: Unopened) -> Self {
        Self::Unopened(why)
    }
}

impl From<ReadError> for Unread {
    fn from(error: ReadError) -> Self {
        Self::Unfit(error)
    }
}

/// How far it is: done, of all.
pub type Progress<'a> = &'a dyn Fn(usize, usize);

/// Takes what a file brings into the book. Saves of any tab wait until it is done.
pub async fn take(
    db: &Db,
    book: &RefCell<State>,
    found: &Found,
    progress: Progress<'_>,
) -> Result<(), Unread> {
    let _alone = lock::book_alone().await;
    save::catch_up(db, book).await?;
    if book.borrow().vector != found.at {
        return Err(Unread::MovedOn);
    }
    // What an import before this one could not even clear away.
    finish::forget(db).await?;
    let incoming = &*found.incoming;
    let mut note = Note::read(db).await?;
    let number = note.begin();
    let taken = begin_taking(db, book, &mut note, number, incoming, progress).await;
    if let Err(fault) = taken {
        // At once: nothing may read what is laid beside. Where the storage does not even do that, the next file or the next start does.
        if let Err(left) = finish::forget(db).await {
            leptos::logging::warn!("what was laid beside is still there: {left}");
        }
        return Err(fault.into());
    }
    let folded = async {
        fold_records(db, book, &incoming.touched(), None, progress).await?;
        note.set(number, Stage::Done);
        note.write(db).await
    };
    folded.await.map_err(Unread::NotFolded)?;
    let mut state = book.borrow_mut();
    for line in &incoming.changes {
        state.note(line.key, line.stamp);
    }
    Ok(())
}

/// Up to the commit point, after which all of it is in the book.
async fn begin_taking(
    db: &Db,
    book: &RefCell<State>,
    note: &mut Note,
    number: u64,
    incoming: &Incoming,
    progress: Progress<'_>,
) -> Result<(), Fault> {
    note.write(db).await?;
    lay_beside(db, number, &incoming.changes, progress).await?;
    note.set(number, Stage::Folding);
    let after = after(&book.borrow(), &incoming.changes);
    let transaction = db.strict(&[META])?;
    let before = Undoable::of(number, &book.borrow());
    if let Err(fault) = put_taken(&transaction, note, incoming, &before, &after).await {
        // Else the browser would commit what was put so far. It may have given up by itself already.
        drop(transaction.abort());
        return Err(fault);
    }
    transaction.complete().await
}

/// What the commit point writes. The vector counts what is laid beside from here on, and so does the next start.
async fn put_taken(
    transaction: &Strict,
    note: &Note,
    incoming: &Incoming,
    before: &Undoable,
    after: &State,
) -> Result<(), Fault> {
    note.put_in(transaction)?;
    note::put_peer(transaction, incoming).await?;
    before.put_in(transaction)?;
    put_notes(transaction, after)
}

/// The numbers of imports whose changes are laid beside, as rows have them: no part of the book.
pub async fn laid_beside(db: &Db) -> Result<Vec<String>, Fault> {
    let staged = Note::read(db).await?.at(Stage::Staging);
    Ok(staged.iter().map(u64::to_string).collect())
}

/// The book's notes as they are once the changes are in: only clock and vector are of use.
fn after(state: &State, changes: &[Line]) -> State {
    let mut after = State::new(state.me);
    after.vector.clone_from(&state.vector);
    after.clock = state.clock;
    for line in changes {
        after.note(line.key, line.stamp);
    }
    after
}

fn put_notes(transaction: &Strict, after: &State) -> Result<(), Fault> {
    let vector = json::write(&after.vector);
    transaction.put(META, &[("k", "vector"), ("v", &vector)])?;
    // No own stamp may fall behind what came in.
    let head = Head {
        seq: after.head(),
        stamp: after.clock.last(after.me),
    };
    transaction.put(META, &[("k", "head"), ("v", &head.to_json())])
}

async fn lay_beside(
    db: &Db,
    number: u64,
    changes: &[Line],
    progress: Progress<'_>,
) -> Result<(), Fault> {
    let number = number.to_string();
    for (done, batch) in changes.chunks(BATCH).enumerate() {
        let transaction = db.relaxed(&[CHANGES])?;
        for line in batch {
            let row = [
                ("k", line.key.to_string()),
                ("r", line.record.to_string()),
                ("s", line.stamp.to_string()),
                ("t", line.text.clone()),
                ("i", number.clone()),
            ];
            transaction.put(
                CHANGES,
                &row.each_ref().map(|(key, value)| (*key, &**value)),
            )?;
        }
        transaction.complete().await?;
        progress(done * BATCH + batch.len(), changes.len());
    }
    Ok(())
}

/// Folds records again from all their changes, in memory and on the disk; without those of one import, when that is being undone. A record
/// of which nothing was said goes.
async fn fold_records(
    db: &Db,
    book: &RefCell<State>,
    records: &[RecordKey],
    without: Option<u64>,
    progress: Progress<'_>,
) -> Result<(), Fault> {
    for (done, batch) in records.chunks(BATCH).enumerate() {
        let transaction = db.strict(&[CHANGES, RECORDS])?;
        // Asked for all at once: waiting for each in turn takes several times as long.
        let asked = batch
            .iter()
            .map(|record| save::rows_of(&transaction, record));
        for (record, rows) in batch.iter().zip(join_all(asked).await) {
            save::fold_rows(book, &rows?, without)?;
            let key = record.to_string();
            match book.borrow().stored(record) {
                Some(json) => transaction.put(RECORDS, &[("k", &key), ("j", &json)])?,
                None => transaction.delete(RECORDS, &key)?,
            }
        }
        transaction.complete().await?;
        progress(done * BATCH + batch.len(), records.len());
    }
    Ok(())
}
