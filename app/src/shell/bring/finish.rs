//! What is done about an import, or the undoing of one, that was cut off, by a start or by itself when it fails: what was only laid beside
//! goes, what was taken is folded in, what was being taken out again is taken out.

use super::note::{Note, Stage};
use super::{BATCH, Progress, fold_records};
use crate::shell::db::{CHANGES, Db, text};
use crate::shell::fault::Fault;
use crate::shell::lock;
use haulwren_core::book::State;
use haulwren_core::change::{Change, RecordKey};
use haulwren_core::id::DeviceCode;
use std::cell::RefCell;

/// Settles imports that were cut off, before the book is read. An import under way in another tab is waited for.
pub async fn settle(db: &Db, progress: Progress<'_>) -> Result<(), Fault> {
    if Note::read(db).await?.is_settled() {
        return Ok(());
    }
    let _alone = lock::book_alone().await;
    forget(db).await?;
    let mut note = Note::read(db).await?;
    for number in note.at(Stage::Folding) {
        let records = touched(db, number).await?;
        fold_records(db, &apart(), &records, None, progress).await?;
        note.set(number, Stage::Done);
        note.write(db).await?;
    }
    for number in note.at(Stage::Undoing) {
        take_out(db, &mut note, number, progress).await?;
    }
    Ok(())
}

/// Throws away what was only laid beside. For whoever holds the book alone: then no import is under way. What counts is what the disk says,
/// since a commit whose answer was lost may have come through.
pub(super) async fn forget(db: &Db) -> Result<(), Fault> {
    let mut note = Note::read(db).await?;
    let staged = note.at(Stage::Staging);
    if staged.is_empty() {
        return Ok(());
    }
    for number in staged {
        forget_rows(db, number).await?;
        // Its number stays used.
        note.set(number, Stage::Undone);
    }
    note.write(db).await
}

/// Takes an import out again, whose undoing is noted: records are folded without it first, so that its rows still tell which they are.
pub(super) async fn take_out(
    db: &Db,
    note: &mut Note,
    number: u64,
    progress: Progress<'_>,
) -> Result<(), Fault> {
    let records = touched(db, number).await?;
    fold_records(db, &apart(), &records, Some(number), progress).await?;
    forget_rows(db, number).await?;
    note.set(number, Stage::Undone);
    note.write(db).await
}

/// Takes away the changes of an import.
async fn forget_rows(db: &Db, number: u64) -> Result<(), Fault> {
    let number = number.to_string();
    loop {
        let transaction = db.strict(&[CHANGES])?;
        let rows = transaction.rows(CHANGES, "i", &number).await?;
        let keys = rows.iter().filter_map(|row| text(row, "k"));
        let some: Vec<String> = keys.take(BATCH).collect();
        for key in &some {
            transaction.delete(CHANGES, key)?;
        }
        transaction.complete().await?;
        if some.len() < BATCH {
            return Ok(());
        }
    }
}
/// A book to fold records in, one at a time: no other record is looked at.
fn apart() -> RefCell<State> {
    RefCell::new(State::new(DeviceCode::from_chance([0; 5])))
}

/// The records that an import touches.
async fn touched(db: &Db, number: u64) -> Result<Vec<RecordKey>, Fault> {
    let transaction = db.strict(&[CHANGES])?;
    let rows = transaction.rows(CHANGES, "i", &number.to_string()).await?;
    transaction.complete().await?;
    let mut records = Vec::new();
    for row in &rows {
        let line = text(row, "t").unwrap_or_default();
        let change = Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?;
        records.push(change.record());
    }
    records.sort_unstable();
    records.dedup();
    Ok(records)
}
