//! Reading on what other tabs of this device saved or brought in, and the changes of one record.

use super::{Head, publish};
use crate::shell::db::{CHANGES, Db, META, Strict, text};
use crate::shell::fault::Fault;
use futures::future::join;
use haulwren_core::book::{State, Touched};
use haulwren_core::change::{Change, Key, RecordKey, Vector};
use haulwren_core::exchange::fold_in;
use haulwren_core::json;
use std::cell::RefCell;
use wasm_bindgen::JsValue;

/// Folds in what other tabs of this device have saved since.
pub async fn catch_up(db: &Db, book: &RefCell<State>) -> Result<Touched, Fault> {
    let transaction = db.strict(&[META, CHANGES])?;
    let touched = within(&transaction, book).await?;
    transaction.complete().await?;
    Ok(touched)
}

pub(super) async fn within(transaction: &Strict, book: &RefCell<State>) -> Result<Touched, Fault> {
    // Asked for at once: each answer takes its time.
    let note = |key| transaction.get(META, key, "v");
    let (head, vector) = join(note("head"), note("vector")).await;
    let own = catch_up_own(transaction, book, head?).await?;
    let others = catch_up_others(transaction, book, vector?).await?;
    Ok(own.and(others))
}

/// Reads on what another tab brought in of other devices.
async fn catch_up_others(
    transaction: &Strict,
    book: &RefCell<State>,
    vector: Option<String>,
) -> Result<Touched, Fault> {
    let vector: Option<Vector> = vector
        .map(|text| json::read(&text))
        .transpose()
        .map_err(|error| Fault::Damaged(error.to_string()))?;
    let mut records = Vec::new();
    let is_ahead = |known: Key| known.seq > vector.as_ref().map_or(0, |of| of.of(known.device));
    let me = book.borrow().me;
    if book.borrow().vector.without(me).iter().any(is_ahead) {
        return Err(Fault::MovedBack);
    }
    for key in vector.iter().flat_map(Vector::iter) {
        let known = book.borrow().vector.of(key.device);
        if key.seq <= known {
            continue;
        }
        let [from, to] = [known, key.seq].map(|seq| {
            let seq = seq + 1;
            Key { seq, ..key }.to_string()
        });
        for line in transaction.texts(CHANGES, &from, &to, "t").await? {
            let change =
                Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?;
            book.borrow_mut().note(change.key, change.stamp);
            records.push(change.record());
        }
    }
    records.sort_unstable();
    records.dedup();
    let mut touched = Touched::default();
    for record in &records {
        touched = touched.and(fold_record(transaction, book, record).await?);
    }
    Ok(touched)
}

/// Folds one record again from all its changes.
async fn fold_record(
    transaction: &Strict,
    book: &RefCell<State>,
    record: &RecordKey,
) -> Result<Touched, Fault> {
    fold_rows(book, &rows_of(transaction, record).await?, None)
}

/// The rows of a record's changes.
pub async fn rows_of(transaction: &Strict, record: &RecordKey) -> Result<Vec<JsValue>, Fault> {
    transaction.rows(CHANGES, "r", &record.to_string()).await
}

/// Folds a record from the rows of its changes, or from all but those of one import.
pub fn fold_rows(
    book: &RefCell<State>,
    rows: &[JsValue],
    without: Option<u64>,
) -> Result<Touched, Fault> {
    let without = without.map(|number| number.to_string());
    let mut changes = Vec::with_capacity(rows.len());
    for row in rows {
        if without.is_some() && text(row, "i") == without {
            continue;
        }
        let line = text(row, "t").unwrap_or_default();
        changes.push(Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?);
    }
    Ok(fold_in(&mut book.borrow_mut(), &[], changes))
}

async fn catch_up_own(
    transaction: &Strict,
    book: &RefCell<State>,
    head: Option<String>,
) -> Result<Touched, Fault> {
    let (me, ours) = (book.borrow().me, book.borrow().head());
    let head = head
        .map(|text| Head::from_json(&text))
        .transpose()
        .map_err(|error| Fault::Damaged(error.to_string()))?;
    let is_other = match &head {
        // Another tab took a new code for this device.
        Some(head) => head.stamp.device != me,
        // Another tab erased the book.
        None => ours > 0,
    };
    if is_other {
        return Err(Fault::MovedBack);
    }
    let Some(head) = head.filter(|head| head.seq > ours) else {
        return Ok(Touched::default());
    };
    let from = Key {
        device: me,
        seq: ours + 1,
    }
    .to_string();
    let to = Key {
        device: me,
        seq: head.seq + 1,
    }
    .to_string();
    let lines = transaction.texts(CHANGES, &from, &to, "t").await?;
    let changes: Result<Vec<_>, _> = lines.iter().map(|line| Change::from_line(line)).collect();
    Ok(publish(
        book,
        &changes.map_err(|error| Fault::Damaged(error.to_string()))?,
    ))
}

/// The rows of a record's changes, read.
pub async fn history(db: &Db, record: &RecordKey) -> Result<Vec<Change>, Fault> {
    let lines = db.history(&record.to_string()).await?;
    let changes: Result<Vec<_>, _> = lines.iter().map(|line| Change::from_line(line)).collect();
    changes.map_err(|error| Fault::Damaged(error.to_string()))
}
