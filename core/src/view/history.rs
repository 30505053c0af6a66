//! History of records: what was said of them, when, on which device, and the way back to it.

use super::parts::label;
use super::values::value;
use crate::book::{Command, State, is_readable};
use crate::change::{Change, Fields, GONE, Key, RecordKey};
use crate::kind::RecordKind;
use crate::stamp::At;
use serde_json::Value;

/// One change of a record as people read it, with the way back.
#[derive(Clone, Debug, PartialEq)]
pub struct Saying {
    /// Which change.
    pub key: Key,
    /// When, as the device's clock showed.
    pub at: At,
    /// The device's name, or its code while it has none here.
    pub device: String,
    /// What it said, field by field.
    pub lines: Vec<Earlier>,
}

/// What was once said of a field.
#[derive(Clone, Debug, PartialEq)]
pub struct Earlier {
    /// Which field.
    pub field: String,
    /// What it is called.
    pub label: String,
    /// The value in words.
    pub words: String,
    /// What gives the field this value again; `None` where it has it, or this version cannot read it.
    pub back: Option<Command>,
}

/// The history of one record, of whatever kind, newest first. `changes` may be more than its own.
#[must_use]
pub fn history_of(state: &State, record: &RecordKey, mut changes: Vec<Change>) -> Vec<Saying> {
    changes.retain(|change| change.id == record.id && change.kind == record.kind);
    let now = state.fields_of(record);
    let mut told = Vec::new();
    for change in newest_first(state, changes) {
        let mut lines = Vec::new();
        for (field, said) in in_order(&change) {
            lines.push(Earlier {
                field: field.clone(),
                label: label(&change.kind, field),
                words: value(state, &change.kind, field, said),
                back: back(state, record, &now, field, said),
            });
        }
        told.push(Saying {
            key: change.key,
            at: change.at,
            device: state.name_of(change.device()),
            lines,
        });
    }
    told
}

/// What gives a field an earlier value again, where that is another one and may be.
fn back(
    state: &State,
    record: &RecordKey,
    now: &Fields,
    field: &str,
    said: &Value,
) -> Option<Command> {
    let is_so = now.get(field).unwrap_or(&Value::Null) == said;
    let is_out = now.contains_key(GONE) && field != GONE;
    let may = state.may_go_back(record, field, said) && record.kind != RecordKind::Book;
    if is_so || is_out || !may || !is_readable(&record.kind, field, said) {
        return None;
    }
    let mut set = Fields::new();
    set.insert(field.to_owned(), said.clone());
    let record = record.clone();
    Some(Command::GoBack { record, set })
}

fn newest_first(state: &State, mut changes: Vec<Change>) -> Vec<Change> {
    if state.currency().is_none() {
        return Vec::new();
    }
    changes.sort_unstable_by_key(|change| std::cmp::Reverse((change.stamp, change.key)));
    changes
}

/// The fields of a change in the order in which they are declared.
fn in_order(change: &Change) -> Vec<(&String, &Value)> {
    let mut fields: Vec<(&String, &Value)> = change.set.iter().collect();
    fields.sort_unstable_by_key(|(field, _)| (place(&change.kind, field), *field));
    fields
}

/// Where a field stands among those of its kind; what this version does not know comes last.
fn place(kind: &RecordKind, field: &str) -> usize {
    let before = kind.fields().iter();
    before.take_while(|declared| declared.name != field).count()
}

#[cfg(test)]
mod tests;
