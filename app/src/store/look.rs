//! Looking back: the last ten saves, and the history of a thing.

use super::saving::own;
use super::{Inner, Store};
use crate::late;
use crate::shell::fault::Fault;
use crate::shell::lock;
use crate::shell::save;
use haulwren_core::book::{State, undo};
use haulwren_core::change::{Change, Key, RecordKey};
use haulwren_core::view::{self, Dispute, Done, Saying};

/// Says what a save did.
type Describe = fn(&State, &[Change]) -> Option<Done>;

/// How many changes back the last ten saves are looked for.
const BACK: u64 = 200;

impl Store {
    /// The last ten saves of this device, newest first, each with whether it can still be undone.
    ///
    /// # Errors
    /// When the storage does not answer.
    pub async fn last_ten(self) -> Result<Vec<(Done, bool)>, Fault> {
        let inner = self.inner;
        // Without what comes late the list says less, but it can be undone from all the same.
        let describe = late::fetched()
            .await
            .map_or(view::briefly as Describe, |further| further.describe);
        let recent = recent(inner).await?;
        let saves = recent.chunk_by(|one, next| one.save == next.save);
        // The oldest may reach further back than was read: a whole one begins with the number of its save.
        let whole = saves.filter(|changes| changes[0].key.seq == changes[0].save);
        let whole: Vec<&[Change]> = whole.collect();
        let mut ten = Vec::new();
        for changes in whole.into_iter().rev().take(10) {
            let history = self.history_of(changes).await?;
            let undoable = undo(changes, &history).is_ok();
            ten.extend(describe(&inner.book.borrow(), changes).map(|done| (done, undoable)));
        }
        Ok(ten)
    }

    /// What was ever said of some records, newest first, with the way back to each value.
    ///
    /// # Errors
    /// When the storage does not answer.
    pub async fn history(self, records: &[RecordKey]) -> Result<Vec<Saying>, Fault> {
        let mut told = Vec::new();
        for record in records {
            let changes = self.said_of(record).await?;
            told.extend(view::history_of(&self.inner.book.borrow(), record, changes));
        }
        told.sort_unstable_by_key(|saying| std::cmp::Reverse((saying.at.0, saying.key)));
        Ok(told)
    }

    /// What is in dispute about a field; none when it is settled.
    ///
    /// # Errors
    /// When the storage does not answer.
    pub async fn dispute(self, record: &RecordKey, field: &str) -> Result<Option<Dispute>, Fault> {
        let changes = self.said_of(record).await?;
        let book = self.inner.book.borrow();
        Ok(view::dispute(&book, record, field, &changes))
    }

    /// All that was ever said of a record.
    async fn said_of(self, record: &RecordKey) -> Result<Vec<Change>, Fault> {
        let inner = self.inner;
        let db = inner.db.borrow().clone();
        let Some(db) = db else {
            let session = inner.session.borrow();
            let of_it = session.iter().filter(|change| change.record() == *record);
            return Ok(of_it.cloned().collect());
        };
        // Not while a file is being brought in: what is laid beside would be read along.
        let _held = lock::shared().await;
        save::history(&db, record).await
    }
}

async fn recent(inner: &Inner) -> Result<Vec<Change>, Fault> {
    let Some(db) = inner.db.borrow().clone() else {
        return Ok(inner.session.borrow().clone());
    };
    let (me, head) = (inner.book.borrow().me, inner.book.borrow().head());
    let from = Key {
        device: me,
        seq: head.saturating_sub(BACK) + 1,
    };
    own(&db, from, head + 1).await
}
