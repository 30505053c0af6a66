//! Lines of changes read back; what is no line gives an error and never a panic.

use super::device::Device;
use super::program::programs;
use haulwren_core::book::{State, undo};
use haulwren_core::change::{BadLine, Change, Fields, Key, MAX_DEPTH, RecordKey, Vector};
use haulwren_core::id::DeviceCode;
use haulwren_core::kind::RecordKind;
use haulwren_core::stamp::{At, LAST_MS, Stamp};
use proptest::collection::{btree_map, vec};
use proptest::prelude::*;
use serde_json::{Map, Value, json};
use uuid::Uuid;

/// Values as a later version might write them. No fractions: we write none.
fn values() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 24, 4, |inner| {
        prop_oneof![
            vec(inner.clone(), 0..4).prop_map(Value::from),
            btree_map(any::<String>(), inner, 0..4)
                .prop_map(|fields| Value::Object(fields.into_iter().collect::<Map<_, _>>())),
        ]
    })
}

fn devices() -> impl Strategy<Value = DeviceCode> {
    any::<[u8; 5]>().prop_map(DeviceCode::from_chance)
}

prop_compose! {
    fn changes()(
        device in devices(),
        seq in 1..=Key::LAST_SEQ,
        back in any::<u64>(),
        (ms, counter) in (0..=LAST_MS, any::<u16>()),
        seen in vec((devices(), 1..=Key::LAST_SEQ), 0..4),
        at in (any::<u64>(), any::<i16>()),
        kind in prop_oneof![Just(RecordKind::Thing), any::<String>().prop_map(|name| RecordKind::from(&*name))],
        id in any::<u128>(),
        set in btree_map(any::<String>(), values(), 0..5),
    ) -> Change {
        let seen = seen.into_iter().filter(|(other, _)| *other != device);
        Change {
            key: Key { device, seq },
            save: 1 + back % seq,
            stamp: Stamp { ms, counter, device },
            seen: seen.map(|(device, seq)| Key { device, seq }).collect::<Vector>(),
            at: At(at.0, at.1),
            kind,
            id: Uuid::from_u128(id),
            set: set.into_iter().collect::<Fields>(),
        }
    }
}

/// A line of the ordinary sort, to be bent.
fn plain_line() -> String {
    let mut device = Device::begun();
    device.now = At(1_795_279_327_123, -300);
    device.log.remove(0).line()
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn a_line_reads_back_and_is_written_again_byte_for_byte(change in changes()) {
        let line = change.line();
        prop_assert!(!line.contains(['\n', '\r']));
        let read = Change::from_line(&line).unwrap();
        prop_assert_eq!(&read, &change);
        prop_assert_eq!(read.line(), line);
    }

    #[test]
    fn the_key_of_a_record_reads_back_whatever_its_kind(change in changes()) {
        let record = change.record();
        prop_assert_eq!(record.to_string().parse::<RecordKey>(), Ok(record));
    }

    #[test]
    fn a_line_cut_short_is_an_error(change in changes(), cut in any::<prop::sample::Index>()) {
        let line = change.line();
        let ends: Vec<usize> = line.char_indices().map(|(at, _)| at).collect();
        prop_assert!(Change::from_line(&line[..ends[cut.index(ends.len())]]).is_err());
    }

    #[test]
    fn any_text_at_all_is_read_or_refused(text in any::<String>(), bytes in vec(any::<u8>(), 0..200)) {
        prop_assert!(Change::from_line(&text).is_err());
        prop_assert!(Change::from_line(&String::from_utf8_lossy(&bytes)).is_err());
    }

    /// Whatever is still read after a line was bent is whole: it can be written, and read again.
    #[test]
    fn a_bent_line_is_refused_or_still_a_whole_change(at in any::<prop::sample::Index>(), with in "\\PC{0,3}", long in 0_usize..4) {
        let line = plain_line();
        let from = at.index(line.len());
        let bent = format!("{}{with}{}", &line[..from], &line[(from + long).min(line.len())..]);
        if let Ok(read) = Change::from_line(&bent) {
            prop_assert_eq!(Change::from_line(&read.line()).unwrap(), read);
        }
    }

    /// A kind and a field of a later version change nothing here, stay in the lines, and come back when what hid them is undone.
    #[test]
    fn what_this_version_does_not_know_survives(program in programs(12), stranger in changes(), value in values()) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        let known = device.state.tables.clone();
        let kind = RecordKind::from(&*format!("later {}", stranger.kind));
        let foreign = |seq, set: Value| {
            let (key, stamp) = (Key { seq, ..stranger.key }, stranger.stamp);
            let set = set.as_object().unwrap().clone();
            Change { key, stamp, save: seq, kind: kind.clone(), set, ..stranger.clone() }
        };
        let lines = [foreign(1, json!({"size": value})), foreign(2, json!({"size": 12}))].map(|one| one.line());
        let changes = lines.each_ref().map(|line| Change::from_line(line).unwrap());
        prop_assert_eq!(changes.each_ref().map(Change::line), lines);
        let all = [device.log.as_slice(), &changes].concat();
        prop_assert_eq!(&State::from_changes(device.state.me, &all).tables, &known);
        let undone = undo(&changes[1..], &changes).unwrap();
        prop_assert_eq!(&undone[0].set["size"], &value);
    }
}

#[test]
fn a_line_nests_sixteen_deep_and_no_deeper() {
    let line = plain_line();
    let nested = |levels: usize| {
        let deep = format!("{}{}", "[".repeat(levels), "]".repeat(levels));
        // The line and its `set` are two levels themselves.
        line.replace("\"currency\":\"USD\"", &format!("\"currency\":{deep}"))
    };
    assert!(Change::from_line(&nested(MAX_DEPTH - 2)).is_ok());
    for levels in [MAX_DEPTH - 1, 100, 1_000_000] {
        let found = Change::from_line(&nested(levels));
        assert!(matches!(found, Err(BadLine::TooDeep)), "{levels}");
    }
}
