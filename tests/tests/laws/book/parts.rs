//! Books in parts: each part is a valid file, what it rests on came before, and together they are the book.

use super::device::Device;
use super::files::file_of;
use super::reading::{read, take_in};
use super::replicas::{moves, play, settle};
use haulwren_core::change::{Change, Vector};
use haulwren_core::exchange::{BookWriter, Header, ReadError};
use proptest::prelude::*;

/// What a device holds above `have` as parts of at most `limit` bytes, its changes handed in by their stamps as the storage gives them.
fn parts_of(device: &Device, have: Vector, limit: usize) -> Vec<String> {
    let mut changes = device.log.clone();
    changes.sort_by_key(|change| change.stamp);
    written(device, have, limit, &changes)
}

fn written(device: &Device, have: Vector, limit: usize, changes: &[Change]) -> Vec<String> {
    let (book, currency) = device.state.book().unwrap();
    let header = Header::new(book, currency, device.state.me, device.vector().clone());
    let mut writer = BookWriter::with_limit(header, have, limit);
    let mut parts = Vec::new();
    for change in changes {
        parts.extend(writer.line(&change.line()).unwrap());
    }
    parts.push(writer.finish());
    let text =
        |part: &haulwren_core::exchange::Part| String::from_utf8(part.pieces.concat()).unwrap();
    parts.iter().map(text).collect()
}

proptest! {
    #![proptest_config(crate::tries(48))]

    /// Devices whose clocks differ by hours and go back at times.
    #[test]
    fn parts_in_their_order_are_the_book(moves in moves(30), limit in 500_usize..6_000) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        for device in &devices {
            let parts = parts_of(device, Vector::default(), limit);
            let mut reader = Device::new(7);
            for part in &parts {
                let short = part.len() <= limit || part.lines().count() == 3;
                prop_assert!(short, "{} bytes", part.len());
                let incoming = take_in(&mut reader, part).unwrap();
                prop_assert_eq!(incoming.already_known, 0);
                prop_assert_eq!(&incoming.sender_has, device.vector());
                prop_assert_eq!(incoming.header.part.is_some(), parts.len() > 1);
            }
            prop_assert_eq!(&reader.state.tables, &device.state.tables);
            prop_assert_eq!(reader.vector(), device.vector());
            // Once more, in any order: all of it is known.
            for part in parts.iter().rev() {
                prop_assert!(take_in(&mut reader, part).unwrap().changes.is_empty());
            }
        }
    }

    /// Whatever order the changes are handed in, twice or once.
    #[test]
    fn parts_hold_whatever_the_order_they_were_made_from(moves in moves(16), order in Just(()).prop_perturb(|(), mut rng| (0..400).map(|_| rng.random::<u32>()).collect::<Vec<u32>>())) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        settle(&mut devices);
        let device = &devices[0];
        let mut changes: Vec<Change> = device.log.iter().chain(&device.log).cloned().collect();
        let mut keyed: Vec<(u32, Change)> = changes.drain(..).enumerate().map(|(at, change)| (order[at % order.len()], change)).collect();
        keyed.sort_by_key(|(order, _)| *order);
        let changes: Vec<Change> = keyed.into_iter().map(|(_, change)| change).collect();
        let mut reader = Device::new(7);
        for part in written(device, Vector::default(), 2_000, &changes) {
            take_in(&mut reader, &part).unwrap();
        }
        prop_assert_eq!(&reader.state.tables, &device.state.tables);
        prop_assert_eq!(reader.vector(), device.vector());
    }

    /// A later part alone is refused, and says which to open first.
    #[test]
    fn a_part_before_its_turn_is_refused_with_the_cure(moves in moves(20), which in any::<prop::sample::Index>()) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        settle(&mut devices);
        let parts = parts_of(&devices[0], Vector::default(), 1_500);
        prop_assume!(parts.len() > 2);
        let at = 1 + which.index(parts.len() - 1);
        let mut reader = Device::new(7);
        let before = reader.state.clone();
        let error = take_in(&mut reader, &parts[at]).unwrap_err();
        let is_cure = matches!(error, ReadError::EarlierPart { part, .. } if usize::try_from(part).unwrap() == at + 1);
        prop_assert!(is_cure && error.to_string().ends_with("open the parts before it first."), "{}", error);
        prop_assert_eq!(&reader.state, &before);
    }

    /// Only what changed, in parts too.
    #[test]
    fn only_what_changed_goes_in_parts_too(before in moves(16), after in moves(16), limit in 500_usize..3_000) {
        let mut devices = Device::several(2);
        play(&mut devices, &before);
        let has = read(&devices[0].state, file_of(&devices[1]).as_bytes(), 900).unwrap().sender_has;
        play(&mut devices, &after);
        let parts = parts_of(&devices[0], has.clone(), limit);
        let [one, other] = &mut devices[..] else { panic!("two devices") };
        let mut came = 0;
        for part in &parts {
            let incoming = take_in(other, part).unwrap();
            came += incoming.changes.len() + incoming.already_known;
        }
        let above = one.log.iter().filter(|change| change.key.seq > has.of(change.key.device));
        prop_assert_eq!(came, above.count());
        for key in one.vector().iter() {
            prop_assert!(other.vector().of(key.device) >= key.seq);
        }
        prop_assert_eq!(&other.fresh(), &other.state);
    }
}
