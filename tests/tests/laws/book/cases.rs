//! The whole table of small cases: three changes on three devices, every way in which they can know each other, every pair of
//! values that matters. Held against the model, one by one.

use super::folding::{by_model, device, in_terms_of_the_model, rule};
use haulwren_core::change::{Change, Fields, Key, Vector, fold};
use haulwren_core::kind::RecordKind;
use haulwren_core::stamp::{At, Stamp};
use serde_json::{Value, json};
use uuid::Uuid;

/// What a change says in the table.
const SAID: [fn() -> (&'static str, Value); 6] = [
    || ("name", json!("coat")),
    || ("name", json!("jacket")),
    || ("name", Value::Null),
    || ("gone", json!(true)),
    || ("gone", Value::Null),
    || ("expected", json!("seen")),
];

/// A set of earlier changes as bits: what the third can know, given what the second knows. Who knows the second knows what it knew.
fn closed(second: u8, third: u8) -> bool {
    third & 0b10 == 0 || third & second == second
}

fn change(number: u8, knows: u8, says: (&'static str, Value)) -> Change {
    let me = device(number);
    let first = |number| Key {
        device: device(number),
        seq: 1,
    };
    let seen: Vector = (0..number)
        .filter(|bit| knows & 1 << bit != 0)
        .map(first)
        .collect();
    let stamp = Stamp {
        ms: u64::from(number) + 1,
        counter: 0,
        device: me,
    };
    let set: Fields = std::iter::once((says.0.to_owned(), says.1)).collect();
    let (kind, id) = (RecordKind::Thing, Uuid::nil());
    Change {
        key: first(number),
        save: 1,
        stamp,
        seen,
        at: At(0, 0),
        kind,
        id,
        set,
    }
}

#[test]
fn all_small_cases_fold_as_the_model_says() {
    let (mut cases, mut disputes) = (0, 0);
    for second in 0..0b10 {
        for third in (0..0b100).filter(|third| closed(second, *third)) {
            for says in 0..SAID.len().pow(3) {
                let said = |place: u32| SAID[says / SAID.len().pow(place) % SAID.len()]();
                let all = [
                    change(0, 0, said(0)),
                    change(1, second, said(1)),
                    change(2, third, said(2)),
                ];
                let folded = fold(&all, rule);
                disputes += usize::from(!folded.disputes.is_empty());
                let back: Vec<Change> = all.iter().rev().cloned().collect();
                assert_eq!(fold(&back, rule), folded, "{all:#?}");
                assert_eq!(in_terms_of_the_model(folded), by_model(&all), "{all:#?}");
                cases += 1;
            }
        }
    }
    // Seven ways to know each other: 4 when the second knows nothing, 3 when it knows the first.
    assert_eq!(cases, 7 * 216);
    assert!(disputes > 300 && disputes < cases, "{disputes} disputes");
}
