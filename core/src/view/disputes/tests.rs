//! What a dispute says in words, of a field, of a removal, and of what only a later version can read.

use super::*;
use crate::book::{Bought, Purchase, ThingCommand};
use crate::day::Day;
use crate::id::ThingId;
use crate::money::Money;
use crate::view::kit::{Kit, now};
use crate::view::{describe, history_of};
use serde_json::json;

/// What another device says of a record, in knowledge of so much of the kit's.
fn stranger(record: &RecordKey, seen: u64, seq: u64, set: &Value) -> Change {
    let set = set.as_object().expect("an object").clone();
    let line = json!({
        "k": format!("ijklmnop/{seq:010}"), "save": seq,
        "stamp": format!("{:012x}-{seq:04x}-ijklmnop", now().0 + 1_000),
        "seen": {"abcdefgh": seen}, "at": [now().0, 60],
        "kind": record.kind, "id": record.id, "set": set,
    });
    Change::from_line(&line.to_string()).expect("a change")
}

/// A book with a jug in it, and all that was said of the jug.
fn jug() -> (Kit, Vec<Change>, RecordKey) {
    let mut kit = Kit::quayside();
    let jug = Bought {
        name: "jug".to_owned(),
        ..Bought::default()
    };
    let log = kit.tell(&Command::Buy(Purchase::of_one(Money::new(6_00), jug)));
    let record = log[1].record();
    (kit, log, record)
}

fn fold(kit: &mut Kit, record: &RecordKey, changes: &[Change]) {
    let rule = |field: &str| record.kind.rule(field);
    let of_record = changes.iter().filter(|change| change.record() == *record);
    let folded = crate::change::fold(of_record, rule);
    kit.state.put_folded(record, folded);
}

fn rename(record: &RecordKey, name: &str) -> Command {
    let (thing, name) = (ThingId(record.id), name.to_owned());
    Command::Rename { thing, name }
}

#[test]
fn each_value_stands_once_with_all_who_said_it() {
    let (mut kit, mut log, record) = jug();
    let seen = kit.state.head();
    log.extend(kit.tell(&rename(&record, "blue jug")));
    log.push(stranger(&record, seen, 1, &json!({"name": "ewer"})));
    log.push(stranger(&record, seen, 2, &json!({"flaw": "chip"})));
    fold(&mut kit, &record, &log);
    let found = dispute(&kit.state, &record, "name", &log).expect("a dispute");
    assert_eq!(
        (found.about.as_str(), found.label.as_str()),
        ("ewer", "Name")
    );
    let said = found.choices.iter().map(|choice| {
        (
            choice.words.as_str(),
            choice.by[0].device.as_str(),
            choice.used,
            choice.readable,
        )
    });
    let said: Vec<_> = said.collect();
    let expected = [
        ("blue jug", "Phone", false, true),
        ("ewer", "ijklmnop", true, true),
    ];
    assert_eq!(said, expected);
    assert_eq!(found.settle(2), None);
    let settled = kit.tell(&found.settle(0).expect("a command"));
    assert_eq!(
        kit.state
            .thing(ThingId(record.id))
            .and_then(|jug| jug.name.clone()),
        Some("blue jug".to_owned())
    );
    assert_eq!(dispute(&kit.state, &record, "name", &log), None);
    let done = describe(&kit.state, &settled).expect("a save");
    assert_eq!(done.sentence, "blue jug changed");
}

#[test]
fn a_removal_stands_against_the_edits_that_did_not_know_it() {
    let (mut kit, mut log, record) = jug();
    let seen = kit.state.head();
    log.extend(kit.tell(&Command::TakeOut(ThingId(record.id))));
    log.push(stranger(&record, seen, 1, &json!({"name": "ewer"})));
    log.push(stranger(&record, seen, 2, &json!({"pieces": 2})));
    fold(&mut kit, &record, &log);
    let found = dispute(&kit.state, &record, GONE, &log).expect("a dispute");
    let words: Vec<_> = found
        .choices
        .iter()
        .map(|choice| (choice.words.as_str(), choice.used))
        .collect();
    assert_eq!(words, [("taken out", false), ("still there", true)]);
    let edit = |label: &str, words: &str| (label.to_owned(), words.to_owned());
    assert_eq!(
        found.choices[1].edits,
        [edit("Name", "ewer"), edit("Pieces", "2")]
    );
    assert_eq!(found.choices[1].by.len(), 2);
    let settled = kit.tell(&found.settle(1).expect("a command"));
    let done = describe(&kit.state, &settled).expect("a save");
    assert_eq!(done.sentence, "ewer put back");
}

#[test]
fn what_only_a_later_version_can_read_is_shown_and_cannot_be_chosen() {
    let (mut kit, mut log, record) = jug();
    let seen = kit.state.head();
    let kept = true;
    let thing = ThingId(record.id);
    log.extend(kit.tell(&ThingCommand::KeepForMyself { thing, kept }.into()));
    log.push(stranger(&record, seen, 1, &json!({"kept": "for a friend"})));
    fold(&mut kit, &record, &log);
    let found = dispute(&kit.state, &record, "kept", &log).expect("a dispute");
    let readable: Vec<bool> = found.choices.iter().map(|choice| choice.readable).collect();
    assert_eq!(readable, [true, false]);
    assert_eq!(found.choices[1].words, "for a friend");
}

#[test]
fn of_work_a_settled_cost_is_told_by_its_field() {
    let (mut kit, log, record) = jug();
    let wash = ThingCommand::AddWork {
        name: "Wash".to_owned(),
        cost: Money::new(5_00),
        day: Day::new(2026, 11, 21).expect("a day"),
        things: vec![ThingId(record.id)],
    };
    let mut log = [log, kit.tell(&wash.into())].concat();
    let (work, link) = (log[2].record(), log[3].record());
    assert_eq!(link.kind, RecordKind::Worked);
    let seen = kit.state.head();
    log.push(stranger(&work, seen - 2, 1, &json!({"cost": 400})));
    fold(&mut kit, &work, &log);
    let found = dispute(&kit.state, &work, "cost", &log).expect("a dispute");
    let settled = kit.tell(&found.settle(1).expect("a command"));
    let done = describe(&kit.state, &settled).expect("a save");
    assert_eq!(done.sentence, "Wash, cost: 4.00");
    log.extend(settled);
    let told = history_of(&kit.state, &work, log);
    let lines: Vec<_> = told[2]
        .lines
        .iter()
        .map(|line| {
            (
                line.label.as_str(),
                line.words.as_str(),
                line.back.is_some(),
            )
        })
        .collect();
    let expected = [
        ("Name", "Wash", false),
        ("Cost", "5.00", true),
        ("Day", "2026-11-21", false),
    ];
    assert_eq!(lines, expected);
    let back = told[2].lines[1].back.clone().expect("a way back");
    let gone_back = kit.tell(&back);
    let done = describe(&kit.state, &gone_back).expect("a save");
    assert_eq!(done.sentence, "Wash, cost: 5.00");
}
