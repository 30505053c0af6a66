//! A dispute as its screen shows it: what it is about, and what each device said. Nothing is chosen beforehand.

use super::alike::{Alike, alike};
use super::named::{named, nameless};
use super::parts::label;
use super::values::value;
use crate::book::{Command, State, is_readable};
use crate::change::{Change, GONE, Key, RecordKey};
use crate::kind::RecordKind;
use crate::money::Money;
use crate::stamp::At;
use crate::worth::Sells;
use serde::Deserialize;
use serde_json::Value;

/// A field of which two devices said different things without knowing of each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Dispute {
    /// Which record.
    pub record: RecordKey,
    /// Which field.
    pub field: String,
    /// What kind of record it is, in a word.
    pub kind: &'static str,
    /// What the record is called.
    pub about: String,
    /// What the field is called.
    pub label: String,
    /// What was said, in the order in which it was said first; each only once.
    pub choices: Vec<Choice>,
    /// What alike things are thought to sell for, beside a price.
    pub alike: Option<Alike>,
}

/// One of the things that were said.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The change that says it; of several that agree, the last.
    pub key: Key,
    /// The value.
    pub value: Value,
    /// The value in words.
    pub words: String,
    /// The likely price that it says, where it is one.
    pub price: Option<Money>,
    /// What else was changed where the record is to stay, field and value in words: the edits that speak against its removal.
    pub edits: Vec<(String, String)>,
    /// Who said it, and when: all that agree.
    pub by: Vec<Spoken>,
    /// Whether it is what sums go by meanwhile.
    pub used: bool,
    /// Whether this version can read it. Else it can be chosen only by a later one.
    pub readable: bool,
}

/// That a device said something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spoken {
    /// The device's name, or its code while it has none here.
    pub device: String,
    /// When, as its clock showed.
    pub at: At,
}

impl Dispute {
    /// What settles it on the choice at a place.
    #[must_use]
    pub fn settle(&self, place: usize) -> Option<Command> {
        let choice = self.choices.get(place)?;
        Some(Command::Settle {
            record: self.record.clone(),
            field: self.field.clone(),
            choice: choice.key,
            value: choice.value.clone(),
        })
    }
}

/// Works a dispute out. `changes` are those of its record. `None` when it is settled, or its changes are not among those given.
#[must_use]
pub fn dispute(
    state: &State,
    record: &RecordKey,
    field: &str,
    changes: &[Change],
) -> Option<Dispute> {
    let parties = state.parties(record, field)?;
    let mut choices: Vec<Choice> = Vec::new();
    for key in parties {
        let Some(change) = changes.iter().find(|change| change.key == *key) else {
            continue;
        };
        let (said, edits) = said(state, field, change);
        let by = Spoken {
            device: state.name_of(change.device()),
            at: change.at,
        };
        let known = choices.iter_mut().find(|choice| choice.value == said);
        if let Some(choice) = known {
            choice.key = *key;
            choice.edits.extend(edits);
            choice.by.push(by);
            continue;
        }
        choices.push(Choice {
            key: *key,
            words: words(state, &record.kind, field, &said),
            price: price(&record.kind, field, &said),
            readable: is_readable(&record.kind, field, &said),
            value: said,
            edits,
            by: vec![by],
            used: false,
        });
    }
    let last = parties.last()?;
    for choice in &mut choices {
        choice.used = if field == GONE {
            choice.value.is_null()
        } else {
            choice.key == *last
        };
    }
    (choices.len() > 1).then(|| Dispute {
        record: record.clone(),
        field: field.to_owned(),
        kind: nameless(&record.kind),
        about: named(state, record),
        label: label(&record.kind, field),
        alike: alike(state, record, field),
        choices,
    })
}

/// What a party says of a field, and of `gone` what else it edits.
fn said(state: &State, field: &str, change: &Change) -> (Value, Vec<(String, String)>) {
    let said = change.set.get(field).cloned().unwrap_or_default();
    if field != GONE {
        return (said, Vec::new());
    }
    if said == Value::Bool(true) {
        return (said, Vec::new());
    }
    let edits = change.set.iter().filter(|(other, _)| *other != GONE);
    let edit = |(field, said): (&String, &Value)| {
        let words = value(state, &change.kind, field, said);
        (label(&change.kind, field), words)
    };
    (Value::Null, edits.map(edit).collect())
}

fn price(kind: &RecordKind, field: &str, said: &Value) -> Option<Money> {
    let is_price = (kind, field) == (&RecordKind::Thing, "sells");
    let sells = is_price.then(|| Sells::deserialize(said).ok())?;
    sells.map(Sells::likely)
}

fn words(state: &State, kind: &RecordKind, field: &str, said: &Value) -> String {
    match (field, said) {
        (GONE, Value::Bool(true)) => "taken out".to_owned(),
        (GONE, _) => "still there".to_owned(),
        _ => value(state, kind, field, said),
    }
}

#[cfg(test)]
mod tests;
