//! What bringing in a file would do, record by record: what is new, what changes, and between what the trader will have to choose.

use crate::book::State;
use crate::change::{Change, Folded, GONE, Key, RecordKey, fold};
use crate::exchange::NewOf;
use crate::kind::RecordKind;
use crate::view::named::named;
use crate::view::parts::{is_shown, label};
use crate::view::values::value;
use litemap::LiteMap;
use serde_json::Value;
use uuid::Uuid;

/// What a file would do to the book. Records are added one by one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weighed {
    /// Records that are not here yet, counted by kind in the order in which the kinds first came.
    pub new: Vec<NewOf>,
    /// How many records that are here would change.
    pub changed: usize,
    /// The first of their fields that would.
    pub moves: Vec<Move>,
    /// How many fields would be in dispute that are not yet.
    pub disputed: usize,
    /// The first of them.
    pub choices: Vec<Move>,
    /// What would become of each thing and lot that the file says anything new of: for lists in which they stand.
    pub listed: LiteMap<Uuid, Effect>,
}

/// What a file would do to a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// It is not here yet.
    New,
    /// A field of it would change.
    Changed,
    /// A field of it would be in dispute.
    Choose,
}

/// One field that would change.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// Of which record.
    pub record: RecordKey,
    /// What the record is called.
    pub name: String,
    /// The field's name.
    pub label: String,
    /// What would be said of it: "16.00 to 18.00", or "18.00 or 15.00".
    pub words: String,
}

/// So many fields are told one by one.
const MOST: usize = 12;

impl Weighed {
    /// How many records are new.
    #[must_use]
    pub fn new_records(&self) -> usize {
        self.new.iter().map(|of_kind| of_kind.records).sum()
    }

    /// Adds one record: its new changes, and all that the book has of it already.
    pub fn add(&mut self, state: &State, record: &RecordKey, new: Vec<Change>, had: Vec<Change>) {
        if had.is_empty() {
            self.list(record, Effect::New);
            return self.add_new(record, new.len());
        }
        let fold = |changes: &[Change]| fold(changes, |field| record.kind.rule(field));
        let before = fold(&had);
        let mut all = had;
        all.extend(new);
        let after = fold(&all);
        if before == after {
            return;
        }
        let name = named(state, record);
        let mut is_changed = false;
        let before_this = self.disputed;
        for field in fields_of(&record.kind) {
            let words = match after.disputes.get(field) {
                Some(parties) if before.disputes.get(field) != Some(parties) => {
                    let said = said(state, &record.kind, field, parties, &all);
                    push(&mut self.choices, record, &name, field, said);
                    self.disputed += 1;
                    continue;
                }
                Some(_) => continue,
                None => moved(state, &record.kind, field, &before, &after),
            };
            let Some(words) = words else { continue };
            is_changed = true;
            if is_shown(&record.kind, field) {
                push(&mut self.moves, record, &name, field, words);
            }
        }
        self.changed += usize::from(is_changed);
        if self.disputed > before_this {
            self.list(record, Effect::Choose);
        } else if is_changed {
            self.list(record, Effect::Changed);
        }
    }

    fn list(&mut self, record: &RecordKey, effect: Effect) {
        if matches!(record.kind, RecordKind::Thing | RecordKind::Lot) {
            self.listed.insert(record.id, effect);
        }
    }

    fn add_new(&mut self, record: &RecordKey, changes: usize) {
        let place = self.new.iter().position(|of| of.kind == record.kind);
        let place = place.unwrap_or_else(|| {
            self.new.push(NewOf {
                kind: record.kind.clone(),
                records: 0,
                changes: 0,
            });
            self.new.len() - 1
        });
        self.new[place].records += 1;
        self.new[place].changes += changes;
    }
}

fn push(list: &mut Vec<Move>, record: &RecordKey, name: &str, field: &str, words: String) {
    if list.len() < MOST {
        list.push(Move {
            record: record.clone(),
            name: name.to_owned(),
            label: label(&record.kind, field),
            words,
        });
    }
}

/// The fields of a kind that this version knows, in their order; last, that it was taken out.
fn fields_of(kind: &RecordKind) -> impl Iterator<Item = &'static str> {
    let declared = kind.fields().iter();
    declared.map(|field| field.name).chain([GONE])
}

fn moved(
    state: &State,
    kind: &RecordKind,
    field: &str,
    before: &Folded,
    after: &Folded,
) -> Option<String> {
    let [was, is] = [before, after].map(|folded| folded.values.get(field));
    if was == is {
        return None;
    }
    let words = |said: Option<&Value>| value(state, kind, field, said.unwrap_or(&Value::Null));
    Some(match was {
        None => words(is),
        Some(_) => format!("{} to {}", words(was), words(is)),
    })
}

/// What the parties of a dispute say, the earliest first, each value once.
fn said(state: &State, kind: &RecordKind, field: &str, parties: &[Key], all: &[Change]) -> String {
    let mut words: Vec<String> = Vec::new();
    for party in parties {
        let change = all.iter().find(|change| change.key == *party);
        let said = change.and_then(|change| change.set.get(field));
        let word = match (field, said) {
            (GONE, Some(Value::Bool(true))) => "taken out".to_owned(),
            (GONE, _) => "still there".to_owned(),
            (_, said) => value(state, kind, field, said.unwrap_or(&Value::Null)),
        };
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.join(" or ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Command;
    use crate::change::Fields;
    use crate::id::DeviceCode;
    use crate::view::kit::{Kit, now};
    use crate::view::{DecideDraft, purchase};

    fn bought() -> (Kit, Vec<Change>) {
        let mut kit = Kit::quayside();
        let draft = DecideDraft {
            name: "linen dress".to_owned(),
            ask: "6".to_owned(),
            likely: "26".to_owned(),
            ..DecideDraft::default()
        };
        let buy = purchase(&kit.state, &draft, now()).expect("a purchase");
        let changes = kit.tell(&Command::Buy(buy));
        (kit, changes)
    }

    /// A later change of another device to the same record.
    fn other(of: &Change, seen: bool, field: &str, said: Value) -> Change {
        let mut change = of.clone();
        let device: DeviceCode = "bbbbbbbb".parse().expect("a code");
        change.key = Key { device, seq: 1 };
        change.save = 1;
        change.stamp.ms += 1_000;
        change.seen = seen.then_some(of.key).into_iter().collect();
        change.set = Fields::new();
        change.set.insert(field.to_owned(), said);
        change
    }

    fn weigh(field: &str, said: Value, seen: bool) -> Weighed {
        let (kit, changes) = bought();
        let thing = changes
            .iter()
            .find(|change| change.kind == RecordKind::Thing)
            .expect("a thing");
        let change = other(thing, seen, field, said);
        let had: Vec<Change> = changes
            .iter()
            .filter(|change| change.id == thing.id)
            .cloned()
            .collect();
        let mut weighed = Weighed::default();
        weighed.add(&kit.state, &thing.record(), vec![change], had);
        weighed
    }

    #[test]
    fn a_record_that_is_not_here_is_new() {
        let (kit, changes) = bought();
        let mut weighed = Weighed::default();
        for change in &changes {
            weighed.add(&kit.state, &change.record(), vec![change.clone()], vec![]);
        }
        assert_eq!(weighed.new_records(), changes.len());
        assert_eq!((weighed.changed, weighed.disputed), (0, 0));
        let listed: Vec<Effect> = weighed.listed.values().copied().collect();
        assert_eq!(
            listed,
            [Effect::New, Effect::New],
            "the thing and its lot: the device that said it stands in no list"
        );
    }

    #[test]
    fn a_word_that_knows_ours_changes_it() {
        let weighed = weigh("name", Value::from("linen skirt"), true);
        assert_eq!((weighed.changed, weighed.disputed), (1, 0));
        assert_eq!(weighed.moves[0].words, "linen dress to linen skirt");
        assert_eq!(weighed.moves[0].label, "Name");
        assert_eq!(weighed.listed.values().next(), Some(&Effect::Changed));
    }

    #[test]
    fn a_word_that_does_not_know_ours_needs_a_choice() {
        let weighed = weigh("name", Value::from("linen skirt"), false);
        assert_eq!((weighed.changed, weighed.disputed), (0, 1));
        assert_eq!(weighed.choices[0].words, "linen dress or linen skirt");
        assert_eq!(weighed.listed.values().next(), Some(&Effect::Choose));
    }

    #[test]
    fn a_removal_that_does_not_know_our_edit_needs_a_choice_too() {
        let weighed = weigh(GONE, Value::Bool(true), false);
        assert_eq!(weighed.choices[0].words, "still there or taken out");
    }

    #[test]
    fn the_same_word_again_changes_nothing() {
        let weighed = weigh("name", Value::from("linen dress"), false);
        assert_eq!(weighed, Weighed::default());
    }
}
