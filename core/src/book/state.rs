//! The book in memory: what all its changes come to, and how far they are known.

use super::declare::Group;
use super::index::{Index, owners};
use super::kinds::Tables;
use super::table::Edits;
use crate::change::{Change, Disputes, Folded, Key, RecordKey, Vector, by_record, fold};
use crate::id::DeviceCode;
use crate::json::{self, Object, take_object};
use crate::kind::RecordKind;
use crate::stamp::{At, Clock, Stamp};
use serde::Deserialize;
use serde_json::Value;

/// Which groups of records changes touched: what is shown of them has to be worked out again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touched([bool; Group::ALL.len()]);

impl Touched {
    /// All groups.
    pub const ALL: Self = Self([true; Group::ALL.len()]);

    /// One group.
    #[must_use]
    pub const fn only(group: Group) -> Self {
        let mut touched = [false; Group::ALL.len()];
        touched[group as usize] = true;
        Self(touched)
    }

    /// What touching a record of this kind touches; nothing that is shown, when this version does not know the kind.
    #[must_use]
    pub fn of(kind: &RecordKind) -> Self {
        kind.group().map_or(Self::default(), Self::only)
    }

    /// Both.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        for (is_touched, too) in self.0.iter_mut().zip(other.0) {
            *is_touched |= too;
        }
        self
    }

    /// Whether a group is among them.
    #[must_use]
    pub const fn has(self, group: Group) -> bool {
        self.0[group as usize]
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
    /// What of them belongs to what.
    pub(super) index: Index,
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
            index: Index::default(),
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
        self.touch(&change.record(), &mut |tables| {
            if let Some((record, disputes)) = tables.row(&change.kind, change.id) {
                for (field, value) in &change.set {
                    record.put(field, value);
                    disputes.remove(field);
                }
            }
        })
    }

    /// Puts a record as folded from all its changes.
    pub fn put_folded(&mut self, record: &RecordKey, mut folded: Folded) -> Touched {
        self.touch(record, &mut |tables| {
            if let Some((row, disputes)) = tables.row(&record.kind, record.id) {
                row.clear();
                for (field, value) in &folded.values {
                    row.put(field, value);
                }
                *disputes = std::mem::take(&mut folded.disputes);
            }
        })
    }

    /// Lets something happen to a record, and keeps up what it belongs to.
    fn touch(&mut self, record: &RecordKey, act: &mut dyn FnMut(&mut Tables)) -> Touched {
        let before = owners(&self.tables, record);
        act(&mut self.tables);
        let now = owners(&self.tables, record);
        self.index.moved(record.id, before, now);
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
        let mut stored = json::read_object(json)?;
        let mut folded = Folded {
            values: take_object(&mut stored, "set")?,
            disputes: Disputes::default(),
        };
        if stored.contains_key("disputes") {
            for (field, parties) in take_object(&mut stored, "disputes")? {
                let parties = Vec::<Key>::deserialize(&parties)?;
                folded.disputes.insert(field, parties);
            }
        }
        self.put_folded(record, folded);
        Ok(())
    }

    /// Lets go of a record of which no change is left: it is as if it had never been.
    pub fn drop_record(&mut self, record: &RecordKey) -> Touched {
        self.touch(record, &mut |tables| {
            if let Some(table) = tables.rows(&record.kind) {
                table.forget(record.id);
            }
        })
    }

    /// A record as it is to stand in storage; `None` for a kind that this version does not know.
    ///
    /// # Panics
    /// Never: records have a JSON form.
    #[must_use]
    pub fn stored(&self, record: &RecordKey) -> Option<String> {
        let (row, disputes) = self.tables.find(record)?;
        let set = json::text(&Value::Object(row.fields()));
        let mut stored = vec![("set", set)];
        if !disputes.is_empty() {
            let mut fields = Object::new();
            for (field, parties) in disputes.iter() {
                fields.insert(field.clone(), json::value(parties));
            }
            stored.push(("disputes", json::text(&Value::Object(fields))));
        }
        Some(json::ordered(&stored))
    }

    /// The records that own changes touch, as they will stand in storage once the changes are folded. Nothing here moves.
    ///
    /// # Panics
    /// Never: what was just written reads back.
    #[must_use]
    pub fn as_after(&self, changes: &[Change]) -> Vec<(RecordKey, String)> {
        let mut touched: Vec<RecordKey> = changes.iter().map(Change::record).collect();
        touched.sort_unstable();
        touched.dedup();
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
        for change in changes {
            state.note(change.key, change.stamp);
        }
        for changes in by_record(changes) {
            let record = changes[0].record();
            let folded = fold(changes, |field| record.kind.rule(field));
            state.put_folded(&record, folded);
        }
        state
    }
}
