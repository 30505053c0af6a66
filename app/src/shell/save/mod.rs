//! The save protocol: nothing is shown as saved before the disk has it, and no two tabs ever draw the same number.
//!
//! One strict transaction reads the head; when another tab has saved meanwhile, what it saved is read and folded inside the same
//! transaction, and only then is the command decided (which takes no waiting, so the transaction stays alive). Reading on in the same
//! transaction instead of starting over leaves no gap for a third tab.

mod read_on;

pub use read_on::{catch_up, fold_rows, history, rows_of};

use crate::shell::db::{CHANGES, Db, META, RECORDS, Strict};
use crate::shell::fault::Fault;
use haulwren_core::book::{Edits, Refusal, State, Touched};
use haulwren_core::change::Change;
use haulwren_core::json::{self, field};
use haulwren_core::stamp::{At, Stamp};
use std::cell::RefCell;

/// Why a save did not happen.
#[derive(Debug)]
pub enum Unsaved {
    /// The book refuses it.
    Refused(Refusal),
    /// The storage failed.
    Fault(Fault),
}

impl From<Fault> for Unsaved {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

/// What a save did.
pub struct Saved {
    /// The changes that it wrote.
    pub changes: Vec<Change>,
    /// Everything that moved in this tab, what other tabs had saved included.
    pub touched: Touched,
}

/// How far this device's own changes go on the disk.
#[derive(Debug)]
pub struct Head {
    /// Number of the last.
    pub seq: u64,
    /// Its stamp, which no own stamp may fall behind.
    pub stamp: Stamp,
}

impl Head {
    /// Reads it back.
    pub fn from_json(text: &str) -> Result<Self, serde_json::Error> {
        let head = json::read_object(text)?;
        Ok(Self {
            seq: field(&head, "seq")?,
            stamp: field(&head, "stamp")?,
        })
    }

    /// As it stands in the notes.
    pub fn to_json(&self) -> String {
        json::ordered(&[
            ("seq", json::write(&self.seq)),
            ("stamp", json::write(&self.stamp)),
        ])
    }
}

/// What a save wants to change, given the newest state.
pub type Plan<'a> = dyn Fn(&State) -> Result<Vec<Edits>, Refusal> + 'a;

/// Saves what `plan` says, for whoever holds the second copy's lock or shares the book's. `book` is changed only once the disk has it.
/// While the book is still being read (`is_whole` is false), the records that are touched are read first: else they would be written
/// without what they hold.
pub async fn save(
    db: &Db,
    book: &RefCell<State>,
    plan: &Plan<'_>,
    at: At,
    is_whole: bool,
) -> Result<Saved, Unsaved> {
    let transaction = db.strict(&[META, CHANGES, RECORDS])?;
    let mut touched = read_on::within(&transaction, book).await?;
    let changes = match plan(&book.borrow()) {
        Ok(edits) => book.borrow().stamp(edits, at),
        Err(refusal) => {
            transaction.abort()?;
            return Err(Unsaved::Refused(refusal));
        }
    };
    if !is_whole && let Err(fault) = read_touched(&transaction, book, &changes).await {
        transaction.abort()?;
        return Err(fault.into());
    }
    if cfg!(feature = "publish-first") {
        // The build that the kill tests must catch: the save is shown now, and its caller writes it later.
        transaction.abort()?;
    } else {
        write(transaction, book, &changes).await?;
    }
    touched = touched.and(publish(book, &changes));
    Ok(Saved { changes, touched })
}

/// What the build that the kill tests must catch does after it said "saved": a quarter of a second later it writes.
#[cfg(feature = "publish-first")]
pub async fn write_late(db: &Db, book: &RefCell<State>, changes: &[Change]) -> Result<(), Fault> {
    super::clock::pause(250).await;
    write(db.strict(&[META, CHANGES, RECORDS])?, book, changes).await
}

async fn read_touched(
    transaction: &Strict,
    book: &RefCell<State>,
    changes: &[Change],
) -> Result<(), Fault> {
    for change in changes {
        let record = change.record();
        let stored = transaction.get(RECORDS, &record.to_string(), "j").await?;
        let loaded = stored.map(|json| book.borrow_mut().load(&record, &json));
        loaded
            .transpose()
            .map_err(|error| Fault::Damaged(error.to_string()))?;
    }
    Ok(())
}

async fn write(
    transaction: Strict,
    book: &RefCell<State>,
    changes: &[Change],
) -> Result<(), Fault> {
    if let Err(fault) = put(&transaction, book, changes) {
        // Else the browser would commit what was put so far: changes without their head.
        transaction.abort()?;
        return Err(fault);
    }
    transaction.complete().await
}

/// Puts the changes, the records that they touch as they will stand, and the new head.
fn put(transaction: &Strict, book: &RefCell<State>, changes: &[Change]) -> Result<(), Fault> {
    let mut vector = book.borrow().vector.clone();
    for change in changes {
        put_change(transaction, change)?;
        vector.note(change.key);
    }
    for (record, json) in book.borrow().as_after(changes) {
        transaction.put(RECORDS, &[("k", &record.to_string()), ("j", &json)])?;
    }
    if let Some(last) = changes.last() {
        let head = Head {
            seq: last.key.seq,
            stamp: last.stamp,
        };
        transaction.put(META, &[("k", "head"), ("v", &head.to_json())])?;
        transaction.put(META, &[("k", "vector"), ("v", &json::write(&vector))])?;
    }
    Ok(())
}

/// Puts a change's row.
pub fn put_change(transaction: &Strict, change: &Change) -> Result<(), Fault> {
    let (key, record, stamp) = (
        change.key.to_string(),
        change.record().to_string(),
        change.stamp.to_string(),
    );
    transaction.put(
        CHANGES,
        &[
            ("k", &key),
            ("r", &record),
            ("s", &stamp),
            ("t", &change.line()),
        ],
    )
}

/// Folds own changes that are not folded yet.
pub fn publish(book: &RefCell<State>, changes: &[Change]) -> Touched {
    let mut state = book.borrow_mut();
    let mut touched = Touched::default();
    for change in changes {
        if change.key.seq > state.head() {
            touched = touched.and(state.fold_own(change));
        }
    }
    touched
}
