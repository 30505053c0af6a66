//! The random programs, on which most laws of the book rest, say something of every kind of record.

use super::device::Device;
use super::program::programs;
use haulwren_core::kind::RecordKind;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use std::collections::BTreeSet;

#[test]
fn random_programs_say_something_of_every_kind() {
    let mut runner = TestRunner::deterministic();
    let mut told = BTreeSet::new();
    for _ in 0..64 {
        let mut device = Device::begun();
        for timed in programs(60).new_tree(&mut runner).unwrap().current() {
            // A refusal is a fine answer.
            drop(device.run(&timed));
        }
        told.extend(device.log.into_iter().map(|change| change.kind));
    }
    let known: BTreeSet<RecordKind> = RecordKind::ALL.iter().cloned().collect();
    assert_eq!(told, known);
}
