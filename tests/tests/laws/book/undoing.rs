//! Undo: one save's words are taken back where they are still the last, and nothing else moves.

use super::device::Device;
use super::model::{self, Said};
use super::program::{Step, programs, timed};
use super::replicas::{in_storage, moves, play};
use haulwren_core::book::{Edits, Refusal};
use haulwren_core::change::{Change, Key};
use proptest::prelude::*;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

type Visible = BTreeMap<String, BTreeMap<String, Value>>;

/// What the trader sees of the records: those that are there, and say anything.
fn visible(device: &mut Device) -> Visible {
    let records = device.records();
    in_storage(&mut device.state, records)
        .into_iter()
        .map(|(record, outcome)| (record, outcome.values))
        .filter(|(_, values)| !values.is_empty() && !values.contains_key("gone"))
        .collect()
}

/// What undoing a save has to do, from the prose: give back field by field what it replaced, where it is still the only head.
/// What it made goes as a whole, unless somebody has taken it away or brought it back since; a record that the book has once
/// only loses its fields.
fn expected(save: &[Change], log: &[Change]) -> Vec<(String, Map<String, Value>)> {
    let said: Vec<Said> = log
        .iter()
        .map(|change| Said::read(&change.line()))
        .collect();
    let is_own = |key: &str| save.iter().any(|own| own.key.to_string() == key);
    let mut undone = Vec::new();
    for change in save {
        let change = Said::read(&change.line());
        let others: Vec<&Said> = said
            .iter()
            .filter(|one| one.record == change.record && !is_own(&one.key))
            .collect();
        let is_free = |field: &str| {
            others
                .iter()
                .all(|other| !other.set.contains_key(field) || change.knows(other))
        };
        let is_first = !others.iter().any(|other| change.knows(other));
        let before = model::outcome(&others).values;
        let back = |field: &String| {
            (
                field.clone(),
                before.get(field).cloned().unwrap_or(Value::Null),
            )
        };
        let set: Map<String, Value> = if is_first && !is_in_every_book(&change.record) {
            let gone = is_free("gone").then(|| ("gone".to_owned(), json!(true)));
            gone.into_iter().collect()
        } else {
            change
                .set
                .keys()
                .filter(|field| is_free(field))
                .map(back)
                // What stood there before is not given back.
                .filter(|(field, before)| change.set[field] != *before)
                .collect()
        };
        if !set.is_empty() {
            undone.push((change.record.clone(), set));
        }
    }
    undone
}

/// The nil UUID is that of a record that a book has once; version 8 that of one that every book begins with.
fn is_in_every_book(record: &str) -> bool {
    let id = record.split('/').nth(1).unwrap();
    id == "00000000-0000-0000-0000-000000000000" || id.as_bytes()[14] == b'8'
}

fn plain(edits: Vec<Edits>) -> Vec<(String, Map<String, Value>)> {
    edits
        .into_iter()
        .map(|edits| (edits.record.to_string(), edits.set))
        .collect()
}

proptest! {
    #![proptest_config(crate::tries(192))]

    #[test]
    fn undoing_the_last_save_gives_back_the_records_and_undoing_that_restores_them(
        moves in moves(16),
        step in timed(),
    ) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        let device = &mut devices[0];
        let before = visible(device);
        if device.run(&step).is_err() {
            return Ok(());
        }
        let after = visible(device);
        let undone = device.undo_of(device.save_back(0));
        if undone == Err(Refusal::StoodBefore) {
            prop_assert!(matches!(step.step, Step::Settle(..)) && before == after);
            return Ok(());
        }
        for expected in [&before, &after, &before] {
            let undone = device.undo_of(device.save_back(0)).unwrap();
            device.commit(undone);
            prop_assert_eq!(&visible(device), expected);
        }
    }

    #[test]
    fn any_save_can_be_undone_as_far_as_it_has_the_last_word(moves in moves(24)) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        let device = &devices[0];
        for save in device.saves() {
            let found = device.undo_of(save);
            let words = expected(&device.changes_of(save), &device.log);
            if save == 1 {
                prop_assert_eq!(found, Err(Refusal::BeginningStays));
            } else if words.is_empty() {
                prop_assert!(matches!(found, Err(Refusal::NothingToUndo | Refusal::StoodBefore)));
            } else {
                prop_assert_eq!(plain(found.unwrap()), words);
            }
        }
    }

    /// Once undone, a save has nothing left to undo: the undo can be undone instead.
    #[test]
    fn a_save_is_undone_once(program in programs(16)) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        for save in device.saves() {
            if let Ok(undone) = device.undo_of(save) {
                device.commit(undone);
                prop_assert_eq!(device.undo_of(save), Err(Refusal::NothingToUndo));
            }
        }
        let begun: Vec<Key> = device.changes_of(1).iter().map(|change| change.key).collect();
        prop_assert_eq!(begun.len(), 2);
        prop_assert!(device.state.currency().is_some());
    }
}
