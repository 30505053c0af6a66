//! Undoing the last import as a whole: its changes go, and every record is folded without them.
//!
//! Offered only while nothing was saved and no file was written since, in any tab: from then on, others may build on what came in.

use super::note::{Note, Stage};
use super::{Progress, finish};
use crate::shell::db::{Db, META, Strict};
use crate::shell::fault::Fault;
use crate::shell::{lock, save};
use haulwren_core::book::State;
use haulwren_core::change::Vector;
use haulwren_core::json::{self, field};
use std::cell::RefCell;

/// The note of what can be undone.
const NOTE: &str = "undo";

/// The last import, and the book as it was before.
#[derive(Clone, Debug, PartialEq)]
pub struct Undoable {
    number: u64,
    /// Own saves when it came in.
    head: u64,
    vector: Vector,
}

impl Undoable {
    /// What is to be known of an import, before it is folded in.
    pub(super) fn of(number: u64, book: &State) -> Self {
        let (head, vector) = (book.head(), book.vector.clone());
        Self {
            number,
            head,
            vector,
        }
    }

    /// Notes it, at the point where the import is taken.
    pub(super) fn put_in(&self, transaction: &Strict) -> Result<(), Fault> {
        let text = json::ordered(&[
            ("n", json::write(&self.number)),
            ("head", json::write(&self.head)),
            ("vector", json::write(&self.vector)),
        ]);
        transaction.put(META, &[("k", NOTE), ("v", &text)])
    }

    fn from_json(text: &str) -> Result<Self, serde_json::Error> {
        let note = json::read_object(text)?;
        Ok(Self {
            number: field(&note, "n")?,
            head: field(&note, "head")?,
            vector: field(&note, "vector")?,
        })
    }

    /// The import that can still be undone, with so many own saves.
    pub async fn now(db: &Db, head: u64) -> Result<Option<Self>, Fault> {
        let Some(text) = db.meta(NOTE).await? else {
            return Ok(None);
        };
        let noted = Self::from_json(&text).map_err(|error| Fault::Damaged(error.to_string()))?;
        let last = Note::read(db).await?.last();
        let stands = last == Some((noted.number, Stage::Done)) && noted.head == head;
        Ok(stands.then_some(noted))
    }
}

/// From now on the last import can't be undone: a file with what it brought was written.
pub async fn spoil(db: &Db) -> Result<(), Fault> {
    let transaction = db.strict(&[META])?;
    transaction.delete(META, NOTE)?;
    transaction.complete().await
}

/// Undoes the last import, on the disk. Whether it could be. The book in memory, of every tab, is to be read anew after that.
pub async fn undo(db: &Db, book: &RefCell<State>, progress: Progress<'_>) -> Result<bool, Fault> {
    let _alone = lock::book_alone().await;
    save::catch_up(db, book).await?;
    let head = book.borrow().head();
    let Some(last) = Undoable::now(db, head).await? else {
        return Ok(false);
    };
    let mut note = Note::read(db).await?;
    note.set(last.number, Stage::Undoing);
    // From here on a start finishes it.
    let transaction = db.strict(&[META])?;
    note.put_in(&transaction)?;
    transaction.put(META, &[("k", "vector"), ("v", &json::write(&last.vector))])?;
    transaction.delete(META, NOTE)?;
    transaction.complete().await?;
    finish::take_out(db, &mut note, last.number, progress).await?;
    Ok(true)
}
