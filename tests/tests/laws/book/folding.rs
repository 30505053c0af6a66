//! Folding one record's changes, against the model: on honest histories of several devices, and on forged ones.

use super::model::{self, Said};
use haulwren_core::change::{Change, Folded, Key, Rule, Vector, fold};
use haulwren_core::id::DeviceCode;
use haulwren_core::kind::RecordKind;
use haulwren_core::stamp::{At, Clock, Stamp};
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::{Map, Value, json};
use uuid::Uuid;

/// The fields that are played with; the model knows that of a thing's `expected` the later word counts.
const FIELDS: [&str; 4] = ["name", "paid", "expected", "gone"];
const KIND: RecordKind = RecordKind::Thing;

pub fn rule(field: &str) -> Rule {
    if field == "expected" {
        Rule::Latest
    } else {
        Rule::Dispute
    }
}

pub fn device(number: u8) -> DeviceCode {
    format!("device{}a", char::from(b'a' + number))
        .parse()
        .unwrap()
}

/// What folding gave, in the model's terms.
pub fn in_terms_of_the_model(folded: Folded) -> model::Outcome {
    let disputes = folded.disputes.into_iter().map(|(field, keys)| {
        let keys = keys.iter().map(ToString::to_string).collect();
        (field, keys)
    });
    model::Outcome {
        values: folded.values.into_iter().collect(),
        disputes: disputes.collect(),
    }
}

/// What the model makes of the same changes.
pub fn by_model(changes: &[Change]) -> model::Outcome {
    let said: Vec<Said> = changes
        .iter()
        .map(|change| Said::read(&change.line()))
        .collect();
    model::outcome(&said.iter().collect::<Vec<_>>())
}

/// Field and value; few values, so that heads sometimes agree.
fn sets() -> impl Strategy<Value = Map<String, Value>> {
    let value = |field: &str| {
        let field = field.to_owned();
        prop_oneof![
            4 => Just(json!(true)),
            2 => Just(Value::Null),
            2 => Just(json!("other")),
        ]
        .prop_map(move |value| (field.clone(), value))
    };
    let field = prop::sample::select(&FIELDS[..]).prop_flat_map(value);
    vec(field, 1..=2).prop_map(|fields| fields.into_iter().collect())
}

/// A device speaks with its clock at some reading, or takes in so many changes of another.
#[derive(Clone, Debug)]
enum Move {
    Say(u8, u64, Map<String, Value>),
    Take { to: u8, from: u8, at_most: usize },
}

fn moves() -> impl Strategy<Value = Vec<Move>> {
    let say =
        (0_u8..4, 0_u64..50, sets()).prop_map(|(device, now, set)| Move::Say(device, now, set));
    let take = (0_u8..4, 0_u8..4, 1_usize..6).prop_map(|(to, from, at_most)| Move::Take {
        to,
        from,
        at_most,
    });
    vec(prop_oneof![3 => say, 2 => take], 1..30)
}

/// All changes of one record that the moves lead to.
fn played(moves: &[Move]) -> Vec<Change> {
    let mut logs: Vec<Vec<Change>> = vec![Vec::new(); 4];
    for one in moves {
        match one {
            Move::Say(number, now, set) => {
                let (log, me) = (&mut logs[usize::from(*number)], device(*number));
                let mut clock = Clock::default();
                for change in log.iter() {
                    clock.observe(change.stamp);
                }
                let vector: Vector = log.iter().map(|change| change.key).collect();
                let seq = vector.of(me) + 1;
                log.push(Change {
                    key: Key { device: me, seq },
                    save: seq,
                    stamp: clock.tick(*now, me),
                    seen: vector.without(me),
                    at: At(*now, 0),
                    kind: KIND,
                    id: Uuid::nil(),
                    set: set.clone(),
                });
            }
            Move::Take { to, from, at_most } => {
                let has = |log: &[Change], key: Key| log.iter().any(|one| one.key == key);
                let (to, from) = (usize::from(*to), usize::from(*from));
                let new: Vec<Change> = logs[from]
                    .iter()
                    .filter(|one| !has(&logs[to], one.key))
                    .take(*at_most)
                    .cloned()
                    .collect();
                logs[to].extend(new);
            }
        }
    }
    let mut all = logs.concat();
    all.sort_by_key(|change| change.key);
    all.dedup_by_key(|change| change.key);
    all
}

/// The changes in another order, some of them twice.
fn shuffled(changes: &[Change]) -> impl Strategy<Value = Vec<Change>> + use<> {
    let all = changes.to_vec();
    (
        Just(all.clone()).prop_shuffle(),
        prop::sample::subsequence(all.clone(), 0..=all.len()),
    )
        .prop_map(|(order, again)| [order, again].concat())
}

fn histories() -> impl Strategy<Value = (Vec<Change>, Vec<Change>)> {
    moves()
        .prop_map(|moves| played(&moves))
        .prop_flat_map(|all| {
            let arrived = shuffled(&all);
            (Just(all), arrived)
        })
}

/// Changes that claim to know whatever they like, with stamps to match.
fn forged() -> impl Strategy<Value = Vec<Change>> {
    let one = (0_u8..3, 1_u64..5, 0_u64..4, vec(0_u64..5, 3), sets());
    vec(one, 1..10).prop_map(|all| {
        let mut changes: Vec<Change> = all
            .into_iter()
            .map(|(number, seq, ms, seen, set)| {
                let me = device(number);
                let seen: Vector = (0_u8..)
                    .zip(seen)
                    .filter(|(other, seq)| *other != number && *seq > 0)
                    .map(|(other, seq)| Key {
                        device: device(other),
                        seq,
                    })
                    .collect();
                let stamp = Stamp {
                    ms,
                    counter: 0,
                    device: me,
                };
                let (key, at) = (Key { device: me, seq }, At(0, 0));
                Change {
                    key,
                    save: seq,
                    stamp,
                    seen,
                    at,
                    kind: KIND,
                    id: Uuid::nil(),
                    set,
                }
            })
            .collect();
        changes.sort_by_key(|change| change.key);
        changes.dedup_by_key(|change| change.key);
        changes
    })
}

proptest! {
    #![proptest_config(crate::tries(1_024))]

    #[test]
    fn folding_in_any_order_of_arrival_gives_what_the_model_gives((all, arrived) in histories()) {
        let expected = by_model(&all);
        prop_assert_eq!(in_terms_of_the_model(fold(&all, rule)), expected.clone());
        prop_assert_eq!(fold(&arrived, rule), fold(&all, rule), "another order, some twice");
    }

    #[test]
    fn the_parties_of_a_dispute_stand_in_the_order_of_their_stamps((all, arrived) in histories()) {
        let stamp = |key: &Key| all.iter().find(|one| one.key == *key).unwrap().stamp;
        for (field, parties) in fold(&arrived, rule).disputes {
            prop_assert!(parties.iter().map(stamp).is_sorted(), "{}", field);
            prop_assert!(parties.len() > 1, "{}", field);
        }
    }

    #[test]
    fn forged_changes_fold_too_and_as_the_model_says(all in forged(), seed in any::<u64>()) {
        let mut arrived = all.clone();
        arrived.sort_by_key(|one| (one.key.seq.wrapping_mul(seed | 1), one.key));
        prop_assert_eq!(fold(&arrived, rule), fold(&all, rule));
        prop_assert_eq!(in_terms_of_the_model(fold(&all, rule)), by_model(&all));
    }
}
