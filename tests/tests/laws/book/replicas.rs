//! Several devices that share a book: whoever holds the same changes has the same book, whatever the way they came.
//!
//! Shapiro, Preguiça, Baquero, Zawirski, "Conflict-free Replicated Data Types" (2011; M): merging is commutative, associative
//! and idempotent.

use super::device::Device;
use super::model::{self, Said};
use super::program::{Timed, timed};
use haulwren_core::book::State;
use haulwren_core::change::RecordKey;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// A device does something, or takes in some of what another has.
#[derive(Clone, Debug)]
pub enum Move {
    Do(u8, Timed),
    Pull { to: u8, from: u8, at_most: usize },
}

pub fn moves(most: usize) -> impl Strategy<Value = Vec<Move>> {
    let act = (any::<u8>(), timed()).prop_map(|(device, timed)| Move::Do(device, timed));
    let pull = (
        any::<u8>(),
        any::<u8>(),
        prop_oneof![1_usize..5, Just(usize::MAX)],
    )
        .prop_map(|(to, from, at_most)| Move::Pull { to, from, at_most });
    vec(prop_oneof![3 => act, 1 => pull], 0..=most)
}

pub fn play(devices: &mut [Device], moves: &[Move]) {
    let count = devices.len();
    for one in moves {
        match one {
            // A refusal is a fine answer.
            Move::Do(number, timed) => drop(devices[usize::from(*number) % count].run(timed)),
            Move::Pull { to, from, at_most } => {
                exchange(
                    devices,
                    usize::from(*to) % count,
                    usize::from(*from) % count,
                    *at_most,
                );
            }
        }
    }
}

fn exchange(devices: &mut [Device], to: usize, from: usize, at_most: usize) {
    if let Ok([to, from]) = devices.get_disjoint_mut([to, from]) {
        to.pull(from, at_most);
    }
}

/// Everybody takes in everything from everybody.
pub fn settle(devices: &mut [Device]) {
    for _round in 0..2 {
        for to in 0..devices.len() {
            for from in 0..devices.len() {
                exchange(devices, to, from, usize::MAX);
            }
        }
    }
}

/// The book as the model works it out, cut down to what this version of the book can hold.
fn by_model(device: &Device) -> BTreeMap<String, model::Outcome> {
    let said: Vec<Said> = device
        .log
        .iter()
        .map(|one| Said::read(&one.line()))
        .collect();
    model::outcomes(&said)
}

/// The book as it stands in storage.
pub fn in_storage(
    state: &mut State,
    records: impl IntoIterator<Item = RecordKey>,
) -> BTreeMap<String, model::Outcome> {
    let stored = |record: RecordKey| {
        let json = state.stored(&record).unwrap();
        (record.to_string(), model::stored(&json))
    };
    records.into_iter().map(stored).collect()
}

proptest! {
    #![proptest_config(crate::tries(96))]

    #[test]
    fn devices_that_hold_the_same_changes_have_the_same_book(count in 2_u8..=5, moves in moves(40)) {
        let mut devices = Device::several(count);
        play(&mut devices, &moves);
        for one in &devices {
            for other in devices.iter().filter(|other| other.vector() == one.vector()) {
                prop_assert_eq!(&one.state.tables, &other.state.tables);
            }
        }
        settle(&mut devices);
        let first = &devices[0];
        for other in &devices[1..] {
            prop_assert_eq!(other.vector(), first.vector());
            prop_assert_eq!(&other.state.tables, &first.state.tables);
            prop_assert_eq!(&other.state.clock, &first.state.clock);
        }
    }

    #[test]
    fn the_book_of_several_devices_is_what_the_model_makes_of_its_lines(count in 2_u8..=4, moves in moves(30)) {
        let mut devices = Device::several(count);
        play(&mut devices, &moves);
        settle(&mut devices);
        for device in &mut devices {
            let records = device.records();
            prop_assert_eq!(in_storage(&mut device.state, records), by_model(device));
        }
    }

    #[test]
    fn changes_may_arrive_in_any_order_and_more_than_once(moves in moves(30), order in vec(any::<u32>(), 1..400)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        settle(&mut devices);
        let (log, state) = (&devices[0].log, &devices[0].state);
        let twice = [log.as_slice(), &log[..log.len() / 2]].concat();
        let mut arrived: Vec<_> = order.iter().cycle().zip(twice).collect();
        arrived.sort_by_key(|(place, _)| **place);
        let arrived: Vec<_> = arrived.into_iter().map(|(_, change)| change).collect();
        prop_assert_eq!(&State::from_changes(state.me, &arrived), state);
    }

    /// Taking in the same again, in either direction, moves nothing.
    #[test]
    fn what_is_known_already_changes_nothing(moves in moves(30)) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        settle(&mut devices);
        let before = devices[0].state.clone();
        let log = devices[0].log.clone();
        settle(&mut devices);
        prop_assert_eq!(&devices[0].state, &before);
        prop_assert_eq!(&devices[0].log, &log);
    }
}
