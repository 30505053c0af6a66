//! Two devices of one code, one set up from a copy of the other's storage: the one that notices issues what it said alone anew under a code of
//! its own, and from then on both exchange and have the same.

use super::device::Device;
use super::files::file_of;
use super::program::programs;
use super::reading::{read, take_in};
use haulwren_core::change::{Change, Key};
use haulwren_core::exchange::{ReadError, issued_anew, rests_on};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// What was said, whoever said it: how often each.
fn said(log: &[Change]) -> BTreeMap<String, usize> {
    let mut said = BTreeMap::new();
    for change in log {
        let words = format!("{} {:?} {:?}", change.record(), change.at, change.set);
        *said.entry(words).or_default() += 1;
    }
    said
}

/// As the app does it: the log without what was said alone, and that anew.
fn take_new_code(device: &mut Device, after: u64) {
    let (old, code) = (device.state.me, "tooktook".parse().unwrap());
    assert!(!device.log.iter().any(|change| rests_on(change, old, after)));
    let mut own: Vec<Change> = device
        .log
        .iter()
        .filter(|one| one.device() == old)
        .cloned()
        .collect();
    own.sort_by_key(|change| change.key);
    device
        .log
        .retain(|change| change.device() != old || change.key.seq <= after);
    device.log.extend(issued_anew(&own, after, code));
    device.state.me = code;
    device.state = device.fresh();
}

proptest! {
    #![proptest_config(crate::tries(64))]

    #[test]
    fn twins_that_parted_end_with_one_book(
        before in programs(10), one in programs(12), other in programs(12),
    ) {
        let mut first = Device::begun();
        for timed in &before {
            drop(first.run(timed));
        }
        let mut twin = first.twin();
        let parted = first.state.head();
        for (device, program) in [(&mut first, &one), (&mut twin, &other)] {
            for timed in program {
                drop(device.run(timed));
            }
        }
        let all = [&first, &twin].map(|device| {
            device.log.iter().filter(|change| change.key.seq > parted).cloned().collect::<Vec<_>>()
        });
        let both_went_on = all.iter().all(|said| !said.is_empty());
        match take_in(&mut first, &file_of(&twin)) {
            Ok(_) => prop_assert!(!both_went_on),
            Err(ReadError::OtherWords { device, seq, .. }) => {
                prop_assert_eq!((device, seq), (first.state.me, parted + 1));
                let incoming = read(&first.state, file_of(&twin).as_bytes(), 1_000).unwrap();
                let reaches = incoming.reaches_before(Key { device, seq });
                prop_assert!(reaches);
                take_new_code(&mut first, seq - 1);
                prop_assert_eq!(&first.fresh(), &first.state);
                take_in(&mut first, &file_of(&twin)).unwrap();
            }
            Err(error) => prop_assert!(false, "{error}"),
        }
        take_in(&mut twin, &file_of(&first)).unwrap();
        prop_assert_eq!(&first.state.tables, &twin.state.tables);
        prop_assert_eq!(&first.state.vector, &twin.state.vector);
        prop_assert_eq!(&first.fresh().tables, &first.state.tables);
        // Nothing that either said is lost, and nothing stands twice.
        let shared: Vec<Change> = first.log.iter().filter(|change| {
            change.device() == twin.state.me && change.key.seq <= parted
        }).cloned().collect();
        let expected: Vec<Change> = shared.into_iter().chain(all.into_iter().flatten()).collect();
        prop_assert_eq!(said(&first.log), said(&expected));
        // And they go on exchanging, now that no two go by one code.
        let again = if both_went_on { &before[..] } else { &[] };
        for timed in again {
            drop(first.run(timed));
            drop(twin.run(timed));
        }
        take_in(&mut twin, &file_of(&first)).unwrap();
        take_in(&mut first, &file_of(&twin)).unwrap();
        prop_assert_eq!(&first.state.tables, &twin.state.tables);
    }
}
