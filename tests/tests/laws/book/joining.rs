//! Files between devices: whoever took the same in has the same book, whatever the way; two used books become one.

use super::device::Device;
use super::files::file_of;
use super::program::programs;
use super::reading::{read, take_in};
use super::replicas::{moves, play, settle};
use haulwren_core::book::{Command, Edits};
use haulwren_core::change::{Change, RecordKey, Vector};
use haulwren_core::exchange::{Against, Header, Meeting, ReadError, write_changed};
use haulwren_core::id::RulesId;
use haulwren_core::kind::RecordKind;
use haulwren_core::money::Currency;
use proptest::prelude::*;
use serde_json::{Value, json};

/// A file of what a device has above `have`.
pub fn changed_of(device: &Device, have: &Vector) -> String {
    let (book, currency) = device.state.book().unwrap();
    let header = Header::new(book, currency, device.state.me, device.vector().clone());
    let mut changes = device.log.clone();
    changes.sort_by_key(|change| change.key);
    let lines: Vec<String> = changes.iter().map(Change::line).collect();
    write_changed(&header, have, lines.iter().map(String::as_str))
}

/// A device with a book of its own.
pub fn begun(number: u8, currency: &str) -> Device {
    let mut device = Device::new(number);
    let begin = Command::Begin {
        currency: Currency::from_code(currency).unwrap(),
        device: format!("Device {number}"),
    };
    let edits = device.decide(&begin).unwrap();
    device.commit(edits);
    device
}

proptest! {
    #![proptest_config(crate::tries(48))]

    #[test]
    fn a_file_does_what_taking_in_change_by_change_does(moves in moves(30)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        let file = file_of(&devices[0]);
        let [one, other, _] = &mut devices[..] else { panic!("three devices") };
        let known = other.log.len();
        let known_to_both = one.log.iter().filter(|change| other.log.contains(change)).count();
        let incoming = take_in(other, &file).unwrap();
        prop_assert_eq!(incoming.already_known, known_to_both);
        prop_assert_eq!(incoming.changes.len(), other.log.len() - known);
        // As everything folded afresh gives it.
        prop_assert_eq!(&other.fresh(), &other.state);
        // The same again is nothing new.
        let before = other.state.clone();
        let again = take_in(other, &file).unwrap();
        prop_assert_eq!((again.changes.len(), again.already_known), (0, one.log.len()));
        prop_assert_eq!(&other.state, &before);
        // And back again: both have the same.
        take_in(one, &file_of(other)).unwrap();
        prop_assert_eq!(&one.state.tables, &other.state.tables);
        prop_assert_eq!(one.vector(), other.vector());
    }

    /// What is above what the last file from there said is enough; of a third one, it is refused or enough.
    #[test]
    fn only_what_changed_is_enough(before in moves(20), after in moves(20)) {
        let mut devices = Device::several(3);
        play(&mut devices, &before);
        let from_other = read(&devices[0].state, file_of(&devices[1]).as_bytes(), 900).unwrap();
        play(&mut devices, &after);
        let file = changed_of(&devices[0], &from_other.sender_has);
        let [one, other, third] = &mut devices[..] else { panic!("three devices") };
        let incoming = take_in(other, &file).unwrap();
        prop_assert!(incoming.changes.len() + incoming.already_known <= one.log.len());
        for key in one.vector().iter() {
            prop_assert!(other.vector().of(key.device) >= key.seq);
        }
        prop_assert_eq!(&other.fresh(), &other.state);
        let before = third.state.clone();
        match take_in(third, &file) {
            Ok(_) => prop_assert_eq!(&third.fresh(), &third.state),
            Err(error) => {
                let is_cure = matches!(error, ReadError::BeginsLater { .. } | ReadError::RestsOnMissing { .. });
                prop_assert!(is_cure && error.to_string().ends_with("ask for a whole book."), "{}", error);
                prop_assert_eq!(&third.state, &before);
            }
        }
    }

    #[test]
    fn two_used_books_joined_in_either_order_are_the_same_book(one_did in programs(12), other_did in programs(12)) {
        let (mut one, mut other) = (begun(0, "USD"), begun(1, "USD"));
        for (device, did) in [(&mut one, &one_did), (&mut other, &other_did)] {
            for timed in did {
                // A refusal is a fine answer.
                drop(device.run(timed));
            }
        }
        let files = [file_of(&one), file_of(&other)];
        let mut thirds = [Device::new(2), Device::new(2)];
        for (third, order) in thirds.iter_mut().zip([[0, 1], [1, 0]]) {
            for which in order {
                take_in(third, &files[which]).unwrap();
            }
        }
        let is_untouched = Against::of(&one.state).untouched;
        let (ours, _) = one.state.book().unwrap();
        let met = take_in(&mut one, &files[1]).unwrap().meeting;
        prop_assert_eq!(met, if is_untouched { Meeting::Fresh } else { Meeting::Two });
        take_in(&mut other, &files[0]).unwrap();
        for device in [&other, &thirds[0], &thirds[1]] {
            prop_assert_eq!(&device.state.tables, &one.state.tables);
            prop_assert_eq!(device.vector(), one.vector());
            prop_assert_eq!(&device.state.clock, &one.state.clock);
        }
        // One of them settles which book it is; then it is one book for the other too.
        let edits = one.state.only_book(ours);
        prop_assert_eq!(edits.len(), 1);
        one.commit(edits);
        prop_assert_eq!(one.state.book().unwrap().0, ours);
        prop_assert!(one.state.only_book(ours).is_empty());
        let met = take_in(&mut other, &file_of(&one)).unwrap().meeting;
        prop_assert_eq!(met, Meeting::Same);
        prop_assert_eq!(other.state.book(), one.state.book());
        prop_assert_eq!(&other.state.tables, &one.state.tables);
    }
}

#[test]
fn an_untouched_book_takes_the_files_and_a_used_one_of_other_money_refuses_it() {
    let mut euros = begun(1, "EUR");
    assert!(Against::of(&euros.state).untouched);
    let file = file_of(&Device::begun());
    let incoming = take_in(&mut euros, &file).unwrap();
    assert_eq!(incoming.meeting, Meeting::Fresh);
    let edits = euros.state.only_book(incoming.header.book);
    euros.commit(edits);
    let (book, currency) = euros.state.book().unwrap();
    assert_eq!((book, currency.code()), (incoming.header.book, "USD"));
    assert!(!Against::of(&euros.state).untouched);

    let mut used = begun(2, "EUR");
    let rules = |said: Value| Edits {
        record: RecordKey {
            kind: RecordKind::Rules,
            id: RulesId::SINGLE.0,
        },
        set: said.as_object().unwrap().clone(),
    };
    used.commit(vec![rules(json!({"units": "metric"}))]);
    assert!(Against::of(&used.state).untouched);
    used.commit(vec![rules(json!({"least_keep": 300}))]);
    assert!(!Against::of(&used.state).untouched);
    let before = used.state.clone();
    let refused = take_in(&mut used, &file);
    assert!(
        matches!(refused, Err(ReadError::OtherCurrency { .. })),
        "{refused:?}"
    );
    assert_eq!(used.state, before);
}

/// Two devices that drew one code: the file is refused, and nothing of it is taken.
#[test]
fn the_same_key_with_other_words_is_refused() {
    let mut devices = Device::several(2);
    settle(&mut devices);
    let file = file_of(&devices[0]).replace("Phone", "Fone");
    let lines: Vec<&str> = file.lines().collect();
    let lines: Vec<String> = lines[1..lines.len() - 1]
        .iter()
        .map(|line| (*line).to_owned())
        .collect();
    let (book, currency) = devices[0].state.book().unwrap();
    let header = Header::new(
        book,
        currency,
        devices[0].state.me,
        devices[0].vector().clone(),
    );
    let file = haulwren_core::exchange::write_book(&header, lines.iter().map(String::as_str));
    let before = devices[1].state.clone();
    let refused = take_in(&mut devices[1], &file).unwrap_err();
    assert!(
        matches!(
            refused,
            ReadError::OtherWords {
                line: 3,
                seq: 2,
                ..
            }
        ),
        "{refused}"
    );
    assert_eq!(devices[1].state, before);
}
