//! The book in memory: what all its changes come to, and how far they are known.

use super::kinds::Tables;
use super::table::Record;
use crate::change::{Change, Fields, Folded, Key, RecordKey, Vector, fold};
use crate::id::DeviceCode;
use crate::stamp::{At, Clock, Stamp};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A record with what is in dispute about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry<T> {
    /// The record.
    pub value: T,
    /// Field → the changes to choose between.
    pub disputes: BTreeMap<String, Vec<Key>>,
}

/// All records of a kind by id, those taken away included.
pub type Table<T> = BTreeMap<Uuid, Entry<T>>;

/// What a command changes on one record, before it is stamped.
#[derive(Clone, Debug, PartialEq)]
pub struct Edits {
    /// Which record.
    pub record: RecordKey,
    /// Its fields.
    pub set: Fields,
}

/// Which kinds of record a change touched: what is shown of them has to be worked out again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touched {
    /// Something about the book, its devices, rules, venues or terms: what verdicts rest on.
    pub setup: bool,
    /// Something about lots and things.
    pub haul: bool,
}

impl Touched {
    /// What touching a record of this kind touches.
    #[must_use]
    pub fn of(kind: &str) -> Self {
        let haul = matches!(kind, "lot" | "thing");
        Self { setup: !haul, haul }
    }

    /// Both.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            setup: self.setup || other.setup,
            haul: self.haul || other.haul,
        }
    }
}

/// The whole book on one device.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// This device.
    pub me: DeviceCode,
    /// How far each device's changes are folded in, our own included.
    pub vector: Vector,
    /// The greatest stamp seen.
    pub clock: Clock,
    /// The records.
    pub tables: Tables,
}

/// How a record stands in storage: values, and what is in dispute. No stamps.
#[derive(Debug, Serialize, Deserialize)]
struct Stored {
    set: Fields,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    disputes: BTreeMap<String, Vec<Key>>,
}

/// A stored record that cannot be read.
#[derive(Debug, thiserror::Error)]
#[error("the stored record is damaged ({0})")]
pub struct BadRecord(#[from] serde_json::Error);

impl State {
    /// An empty book on a device.
    #[must_use]
    pub fn new(me: DeviceCode) -> Self {
        Self {
            me,
            vector: Vector::default(),
            clock: Clock::default(),
            tables: Tables::default(),
        }
    }

    /// The number of our last change, 0 before the first.
    #[must_use]
    pub fn head(&self) -> u64 {
        self.vector.of(self.me)
    }

    /// Stamps edits as the next changes of this device: one save.
    #[must_use]
    pub fn stamp(&self, edits: Vec<Edits>, at: At) -> Vec<Change> {
        let mut clock = self.clock;
        let seen = self.vector.without(self.me);
        let save = self.head() + 1;
        let stamped = edits
            .into_iter()
            .zip(save..)
            .map(|(Edits { record, set }, seq)| Change {
                key: Key {
                    device: self.me,
                    seq,
                },
                save,
                stamp: clock.tick(at.0, self.me),
                seen: seen.clone(),
                at,
                kind: record.kind,
                id: record.id,
                set,
            });
        stamped.collect()
    }

    /// Folds in a change of our own, made on top of all that is folded here: it just sets its fields, and settles their disputes.
    pub fn fold_own(&mut self, change: &Change) -> Touched {
        self.note(change.key, change.stamp);
        self.tables.at(&change.kind, SetFields(change));
        Touched::of(&change.kind)
    }

    /// Puts a record as folded from all its changes.
    pub fn put_folded(&mut self, record: &RecordKey, folded: Folded) -> Touched {
        self.tables.at(&record.kind, PutFolded(record.id, folded));
        Touched::of(&record.kind)
    }

    /// Takes note that a change is folded in.
    pub fn note(&mut self, key: Key, stamp: Stamp) {
        self.vector.note(key);
        self.clock.observe(stamp);
    }

    /// Puts a record as read from storage.
    ///
    /// # Errors
    /// When the text is not what [`State::stored`] wrote.
    pub fn load(&mut self, record: &RecordKey, json: &str) -> Result<(), BadRecord> {
        let Stored { set, disputes } = serde_json::from_str(json)?;
        self.put_folded(
            record,
            Folded {
                values: set,
                disputes,
            },
        );
        Ok(())
    }

    /// A record as it is to stand in storage; `None` for a kind that this version does not know.
    ///
    /// # Panics
    /// Never: records have a JSON form.
    #[must_use]
    pub fn stored(&mut self, record: &RecordKey) -> Option<String> {
        let stored = self.tables.at(&record.kind, Store(record.id))??;
        Some(serde_json::to_string(&stored).expect("records have a JSON form"))
    }

    /// The records that own changes touch, as they will stand in storage once the changes are folded. Nothing here moves.
    ///
    /// # Panics
    /// Never: what was just written reads back.
    #[must_use]
    pub fn as_after(&mut self, changes: &[Change]) -> Vec<(RecordKey, String)> {
        let touched: BTreeSet<RecordKey> = changes.iter().map(Change::record).collect();
        let mut after = Self::new(self.me);
        for record in &touched {
            if let Some(json) = self.stored(record) {
                after
                    .load(record, &json)
                    .expect("a record reads back what it wrote");
            }
        }
        for change in changes {
            after.fold_own(change);
        }
        touched
            .into_iter()
            .filter_map(|record| after.stored(&record).map(|json| (record, json)))
            .collect()
    }

    /// A book from all its changes, in whatever order they come.
    #[must_use]
    pub fn from_changes(me: DeviceCode, changes: &[Change]) -> Self {
        let mut state = Self::new(me);
        let mut by_record: BTreeMap<RecordKey, Vec<&Change>> = BTreeMap::new();
        for change in changes {
            state.note(change.key, change.stamp);
            by_record.entry(change.record()).or_default().push(change);
        }
        for (record, changes) in by_record {
            let folded = fold(changes, |field| super::kinds::rule(&record.kind, field));
            state.put_folded(&record, folded);
        }
        state
    }
}

/// Something done to the table of whichever kind.
pub(super) trait Visit {
    type Out;
    fn visit<T: Record>(self, table: &mut Table<T>) -> Self::Out;
}

struct SetFields<'a>(&'a Change);

impl Visit for SetFields<'_> {
    type Out = ();
    fn visit<T: Record>(self, table: &mut Table<T>) {
        let entry = table.entry(self.0.id).or_default();
        for (field, value) in &self.0.set {
            entry.value.put(field, value);
            entry.disputes.remove(field);
        }
    }
}

struct PutFolded(Uuid, Folded);

impl Visit for PutFolded {
    type Out = ();
    fn visit<T: Record>(self, table: &mut Table<T>) {
        let mut value = T::default();
        self.1
            .values
            .iter()
            .for_each(|(field, said)| value.put(field, said));
        table.insert(
            self.0,
            Entry {
                value,
                disputes: self.1.disputes,
            },
        );
    }
}

struct Store(Uuid);

impl Visit for Store {
    type Out = Option<Stored>;
    fn visit<T: Record>(self, table: &mut Table<T>) -> Option<Stored> {
        let entry = table.get(&self.0)?;
        Some(Stored {
            set: entry.value.fields(),
            disputes: entry.disputes.clone(),
        })
    }
}
