//! What every kind of record can do, and tables of them.

use crate::change::{Disputes, Fields, RecordKey};
use litemap::LiteMap;
use serde_json::Value;
use uuid::Uuid;

/// What every kind of record can do.
pub trait Record {
    /// Sets a field from a value as it stands in a change. `null`, and a value that this version cannot read, leave the field unset;
    /// the change itself is kept, so a later version reads it.
    fn put(&mut self, field: &str, value: &Value);

    /// The fields that are set.
    fn fields(&self) -> Fields;

    /// Unsets all fields.
    fn clear(&mut self);

    /// Whether the record was taken away.
    fn is_gone(&self) -> bool;
}

/// A record with what is in dispute about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry<T> {
    /// The record.
    pub value: T,
    /// Field → the changes to choose between.
    pub disputes: Disputes,
}

/// All records of a kind by id, those taken away included. Boxed, so that little moves when one comes in between.
pub type Table<T> = LiteMap<Uuid, Box<Entry<T>>>;

/// A table of whichever kind, so that what is done to all kinds alike is one piece of code.
pub(super) trait Rows {
    /// A record, made when it is not there yet.
    fn row(&mut self, id: Uuid) -> (&mut dyn Record, &mut Disputes);
    /// A record.
    fn find(&self, id: Uuid) -> Option<(&dyn Record, &Disputes)>;
    /// All of them, in the order of their ids.
    fn each(&self, told: &mut dyn FnMut(Uuid, &dyn Record, &Disputes));
    /// Lets go of a record, as if it had never been.
    fn forget(&mut self, id: Uuid);
}

impl<T: Record + Default> Rows for Table<T> {
    fn row(&mut self, id: Uuid) -> (&mut dyn Record, &mut Disputes) {
        let entry = self.entry(id).or_default();
        (&mut entry.value, &mut entry.disputes)
    }

    fn find(&self, id: Uuid) -> Option<(&dyn Record, &Disputes)> {
        let entry = self.get(&id)?;
        Some((&entry.value, &entry.disputes))
    }

    fn each(&self, told: &mut dyn FnMut(Uuid, &dyn Record, &Disputes)) {
        for (id, entry) in self.iter() {
            told(*id, &entry.value, &entry.disputes);
        }
    }

    fn forget(&mut self, id: Uuid) {
        self.remove(&id);
    }
}

/// What a command changes on one record, before it is stamped.
#[derive(Clone, Debug, PartialEq)]
pub struct Edits {
    /// Which record.
    pub record: RecordKey,
    /// Its fields.
    pub set: Fields,
}
