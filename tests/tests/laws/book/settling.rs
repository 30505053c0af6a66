//! Disputes, settled and gone back from: what is chosen holds for everybody, and only what was chosen.

use super::device::Device;
use super::mending;
use super::model::{self, Said};
use super::program::{Step, Timed, strife};
use super::replicas::{Move, moves, play, settle};
use haulwren_core::book::{Command, Refusal, undo};
use haulwren_core::change::{GONE, RecordKey};
use haulwren_core::view::{describe, dispute, history_of};
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeSet;

/// What devices do together, then what each does without hearing of the others.
fn quarrels() -> impl Strategy<Value = Vec<Move>> {
    let alone = (any::<u8>(), strife()).prop_map(|(who, timed)| Move::Do(who, timed));
    let together = Just(Move::Pull {
        to: 0,
        from: 1,
        at_most: usize::MAX,
    });
    (
        moves(25),
        vec(prop_oneof![12 => alone, 1 => together], 10..30),
    )
        .prop_map(|(moves, alone)| [moves, alone].concat())
}

/// Devices that quarrelled, and know it.
fn quarrelled(moves: &[Move]) -> Vec<Device> {
    let mut devices = Device::several(3);
    play(&mut devices, moves);
    settle(&mut devices);
    devices
}

/// What the model says is in dispute about a record.
fn by_model(device: &Device, record: &RecordKey) -> model::Outcome {
    let changes = device.changes_to(record);
    let said: Vec<Said> = changes.iter().map(|one| Said::read(&one.line())).collect();
    model::outcome(&said.iter().collect::<Vec<_>>())
}

proptest! {
    #![proptest_config(crate::tries(96))]

    /// Whatever is listed is a dispute by the model, and has all that was said, each once, and says which is used.
    #[test]
    fn every_dispute_says_what_each_device_said(moves in quarrels()) {
        let device = &quarrelled(&moves)[0];
        for (record, field) in device.state.disputed() {
            let outcome = by_model(device, &record);
            let parties = &outcome.disputes[&field];
            let found = dispute(&device.state, &record, &field, &device.changes_to(&record)).unwrap();
            let by: usize = found.choices.iter().map(|choice| choice.by.len()).sum();
            prop_assert_eq!(by, parties.len());
            let values: BTreeSet<String> = found.choices.iter().map(|choice| choice.value.to_string()).collect();
            prop_assert_eq!(values.len(), found.choices.len());
            let used: Vec<&Value> = found.choices.iter().filter(|choice| choice.used).map(|choice| &choice.value).collect();
            prop_assert_eq!(used, [outcome.values.get(&field).unwrap_or(&Value::Null)]);
            for choice in &found.choices {
                prop_assert!(parties.contains(&choice.key.to_string()));
                prop_assert!(choice.readable && !choice.words.is_empty());
            }
        }
    }

    /// Settled on one device, it is settled on all of them once they hear of it, on the value that was chosen.
    #[test]
    fn what_is_settled_is_settled_for_all(moves in quarrels(), which in any::<u8>(), choice in any::<u8>()) {
        let mut devices = quarrelled(&moves);
        let Ok(command) = mending::settle(&devices[0], which, choice) else { return Ok(()) };
        let Command::Settle { record, field, value, .. } = command.clone() else { panic!("a settlement") };
        let edits = devices[0].decide(&command).unwrap();
        let settled = devices[0].commit(edits);
        prop_assert_eq!(devices[0].decide(&command), Err(Refusal::NoDispute));
        prop_assert!(describe(&devices[0].state, &settled).is_some());
        settle(&mut devices);
        for device in &devices {
            let outcome = by_model(device, &record);
            prop_assert!(!outcome.disputes.contains_key(&field));
            prop_assert_eq!(outcome.values.get(&field).unwrap_or(&Value::Null), &value);
            prop_assert_eq!(device.state.parties(&record, &field), None);
            let fields = device.state.fields_of(&record);
            prop_assert_eq!(fields.get(&field).unwrap_or(&Value::Null), &value);
        }
    }

    /// Two who settle it differently without knowing of each other are in dispute again, over what they chose.
    #[test]
    fn two_settlements_are_a_dispute_over_what_was_chosen(moves in quarrels(), which in any::<u8>()) {
        let mut devices = quarrelled(&moves);
        let Ok(one) = mending::settle(&devices[0], which, 0) else { return Ok(()) };
        let other = mending::settle(&devices[1], which, 1).unwrap();
        let Command::Settle { record, field, .. } = one.clone() else { panic!("a settlement") };
        for (device, command) in devices.iter_mut().zip([one, other]) {
            let edits = device.decide(&command).unwrap();
            device.commit(edits);
        }
        settle(&mut devices);
        let changes = devices[2].changes_to(&record);
        let found = dispute(&devices[2].state, &record, &field, &changes).unwrap();
        prop_assert_eq!(found.choices.len(), 2);
    }

    /// Undoing it gives back what was used meanwhile; no undo brings the dispute back.
    #[test]
    fn undoing_a_settlement_gives_back_what_was_used(moves in quarrels(), which in any::<u8>(), choice in any::<u8>()) {
        let mut devices = quarrelled(&moves);
        let device = &mut devices[0];
        let Ok(command) = mending::settle(device, which, choice) else { return Ok(()) };
        let Command::Settle { record, field, .. } = command.clone() else { panic!("a settlement") };
        let before = device.state.fields_of(&record);
        let edits = device.decide(&command).unwrap();
        let settled = device.commit(edits);
        match undo(&settled, &device.log) {
            Err(refusal) => prop_assert_eq!(refusal, Refusal::StoodBefore),
            Ok(edits) => drop(device.commit(edits)),
        }
        prop_assert_eq!(device.state.fields_of(&record), before);
        prop_assert_eq!(device.state.parties(&record, &field), None);
    }

    /// Each way back is taken, gives just that field its earlier value, and can be undone.
    #[test]
    fn every_way_back_leads_there(moves in quarrels(), which in any::<u8>()) {
        let mut devices = quarrelled(&moves);
        let device = &mut devices[0];
        let records: Vec<RecordKey> = device.records().into_iter().collect();
        let record = records[usize::from(which) % records.len()].clone();
        for saying in history_of(&device.state, &record, device.changes_to(&record)) {
            for line in saying.lines {
                let Some(command) = line.back else { continue };
                let Command::GoBack { set, .. } = &command else { panic!("a way back") };
                let before = device.state.fields_of(&record);
                let edits = device.decide(&command).unwrap();
                let gone_back = device.commit(edits);
                prop_assert_eq!(device.decide(&command), Err(Refusal::NoChange));
                let mut expected = before.clone();
                expected.remove(&line.field);
                expected.extend(set.clone().into_iter().filter(|(_, value)| !value.is_null()));
                prop_assert_eq!(device.state.fields_of(&record), expected);
                let undone = undo(&gone_back, &device.log).unwrap();
                device.commit(undone);
                prop_assert_eq!(device.state.fields_of(&record), before);
            }
        }
    }
}

/// The programs do reach disputes of values and of removals.
#[test]
fn random_programs_do_quarrel() {
    use proptest::strategy::ValueTree as _;
    let mut runner = proptest::test_runner::TestRunner::new(crate::tries(1));
    let (mut values, mut removals, mut settled) = (0, 0, 0);
    for _ in 0..160 {
        let moves = quarrels().new_tree(&mut runner).unwrap().current();
        let mut devices = quarrelled(&moves);
        for (_, field) in devices[0].state.disputed() {
            *if field == GONE {
                &mut removals
            } else {
                &mut values
            } += 1;
        }
        let step = Step::Settle(0, 0);
        settled += usize::from(devices[0].run(&Timed { wait: 1, step }).is_ok());
    }
    assert!(
        values > 20 && removals > 5 && settled > 20,
        "{values} {removals} {settled}"
    );
}
