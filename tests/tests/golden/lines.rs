//! A change line for every kind, every field and every variant of a value.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::book::State;
use haulwren_core::change::{Change, GONE, Key};
use haulwren_core::kind::RecordKind;
use haulwren_core::stamp::At;
use serde_json::Value;
use std::collections::BTreeSet;

const GOLDEN: &str = include_str!("change-v1.txt");

fn golden() -> impl Iterator<Item = Change> {
    GOLDEN
        .lines()
        .map(|line| Change::from_line(line).unwrap_or_else(|error| panic!("{error}: {line}")))
}

#[test]
fn every_field_is_written_as_it_always_was() {
    let mut state = State::new("abcdefgh".parse().unwrap());
    // Another device is known up to a number, so that `seen` has something to say.
    let other = Key {
        device: "ijklmnop".parse().unwrap(),
        seq: 12,
    };
    state.vector.note(other);
    let changes = state.stamp(super::fields::all(), At(1_795_279_327_123, -300));
    let lines: String = changes.iter().map(|change| change.line() + "\n").collect();
    crate::golden!("change-v1.txt", &lines);
}

#[test]
fn every_line_reads_and_writes_back_byte_for_byte() {
    for (line, change) in GOLDEN.lines().zip(golden()) {
        assert_eq!(change.line(), line);
    }
}

/// A value that could not be read would be left unset, and so be missing from the record.
#[test]
fn every_value_is_understood() {
    for change in golden() {
        let state = State::from_changes(change.device(), std::slice::from_ref(&change));
        let json = state.stored(&change.record()).unwrap();
        let stored: Value = serde_json::from_str(&json).unwrap();
        let mut said = change.set.clone();
        said.retain(|_, value| !value.is_null());
        assert_eq!(stored["set"], Value::Object(said), "{}", change.line());
    }
}

#[test]
fn no_kind_and_no_field_is_missing() {
    let declared = RecordKind::ALL.iter().flat_map(|kind| {
        let names = kind.fields().iter().map(|field| field.name).chain([GONE]);
        names.map(|name| (kind.clone(), name.to_owned()))
    });
    let written = golden().flat_map(|change| {
        let fields: Vec<_> = change.set.keys().cloned().collect();
        fields
            .into_iter()
            .map(move |field| (change.kind.clone(), field))
    });
    assert_eq!(
        written.collect::<BTreeSet<_>>(),
        declared.collect::<BTreeSet<_>>()
    );
}
