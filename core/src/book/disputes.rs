//! What is in dispute: fields that two devices set without knowing of each other, where the trader has to choose.

use super::kinds::Tables;
use super::state::State;
use crate::change::{Fields, GONE, Key, RecordKey};
use crate::id::{CardId, LotId, StopId};
use crate::kind::RecordKind;
use serde_json::Value;
use uuid::Uuid;

impl State {
    /// All disputes that mean anything: record and field, in the order of the table of kinds, then of ids and names.
    ///
    /// Left out is what no longer counts: the fields of what was taken away, of what belongs to something that was taken away, and of a
    /// rate card that a newer version follows; fields that only a later version knows; and which of several books stays, which has a
    /// cure of its own.
    #[must_use]
    pub fn disputed(&self) -> Vec<(RecordKey, String)> {
        let mut found: Vec<(RecordKey, String)> = Vec::new();
        for (kind, rows) in self.tables.all() {
            rows.each(&mut |id, _, disputes| {
                let record = || RecordKey {
                    kind: kind.clone(),
                    id,
                };
                let known = disputes.keys().filter(|field| is_known(&kind, field));
                found.extend(known.map(|field| (record(), field.clone())));
            });
        }
        found.retain(|(record, _)| self.matters(record));
        found
    }

    /// The same of one record: its fields, in the order of their names.
    #[must_use]
    pub fn disputed_of(&self, record: &RecordKey) -> Vec<String> {
        let Some((_, disputes)) = self.tables.find(record) else {
            return Vec::new();
        };
        if disputes.is_empty() || !self.matters(record) {
            return Vec::new();
        }
        let known = disputes
            .keys()
            .filter(|field| is_known(&record.kind, field));
        known.cloned().collect()
    }

    /// The changes between which the trader has to choose, in the order of their stamps; `None` where there is no dispute.
    #[must_use]
    pub fn parties(&self, record: &RecordKey, field: &str) -> Option<&[Key]> {
        let (_, disputes) = self.tables.find(record)?;
        disputes.get(field).map(Vec::as_slice)
    }

    /// The fields of a record that are set; none of a record that is not there.
    #[must_use]
    pub fn fields_of(&self, record: &RecordKey) -> Fields {
        let found = self.tables.find(record);
        found.map(|(row, _)| row.fields()).unwrap_or_default()
    }

    /// Whether it counts what a record says.
    fn matters(&self, record: &RecordKey) -> bool {
        let (tables, id) = (&self.tables, record.id);
        match &record.kind {
            RecordKind::Book | RecordKind::Unknown(_) => false,
            // What was paid for a lot counts while a thing of it is there.
            RecordKind::Lot => {
                self.shared_lot(LotId(id)).is_some() || self.lot(LotId(id)).is_some()
            }
            RecordKind::Stop => {
                let trip = tables.stops.get(&id).and_then(|stop| stop.value.trip);
                let is_there = self.stop(StopId(id)).is_some();
                self.is_used(StopId(id)) || is_there && trip.and_then(|id| self.trip(id)).is_some()
            }
            RecordKind::Card => self.newest_of(CardId(id)) == Some(CardId(id)),
            RecordKind::Terms => {
                let terms = tables.terms.get(&id).map(|entry| &entry.value);
                let terms = terms.filter(|terms| !terms.gone);
                terms.is_some_and(|terms| terms.venue.is_none_or(|id| self.venue(id).is_some()))
            }
            RecordKind::Photo => {
                let photo = tables.photos.get(&id).map(|entry| &entry.value);
                let photo = photo.filter(|photo| !photo.gone);
                photo.is_some_and(|photo| photo.thing.is_none_or(|id| self.thing(id).is_some()))
            }
            RecordKind::Worked => {
                let worked = tables.worked.get(&id).map(|entry| &entry.value);
                let worked = worked.filter(|worked| !worked.gone);
                worked.is_some_and(|worked| {
                    let work = worked.work.and_then(|id| tables.works.get(&id.0));
                    let is_there = work.is_some_and(|work| !work.value.gone);
                    is_there && worked.thing.is_none_or(|id| self.thing(id).is_some())
                })
            }
            _ => {
                let found = tables.find(record);
                found.is_some_and(|(row, _)| !row.is_gone())
            }
        }
    }
}

/// Whether this version knows a field of a kind.
pub(super) fn is_known(kind: &RecordKind, field: &str) -> bool {
    field == GONE && kind.declared().is_some() || kind.field(field).is_some()
}

/// Whether this version can read a value of a field: one that is cleared, or of the field's type.
#[must_use]
pub fn is_readable(kind: &RecordKind, field: &str, value: &Value) -> bool {
    if !is_known(kind, field) {
        return false;
    }
    if value.is_null() || field == GONE {
        return value.is_null() || value.is_boolean();
    }
    let mut tables = Tables::default();
    let Some((row, _)) = tables.row(kind, Uuid::nil()) else {
        return false;
    };
    row.put(field, value);
    row.fields().contains_key(field)
}
