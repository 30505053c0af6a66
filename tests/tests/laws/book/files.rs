//! The book file as its readers find it, read here line by line and digested by hand.

use super::device::Device;
use super::replicas::{moves, play, settle};
use haulwren_core::book::State;
use haulwren_core::change::Change;
use haulwren_core::exchange::{Header, write_book};
use proptest::prelude::*;
use serde_json::Value;
use sha2::{Digest, Sha256};

/// The file of everything that a device holds, in the order of the changes' keys.
pub fn file_of(device: &Device) -> String {
    let (book, currency) = device.state.book().unwrap();
    let header = Header::new(book, currency, device.state.me, device.vector().clone());
    let mut changes = device.log.clone();
    changes.sort_by_key(|change| change.key);
    let lines: Vec<String> = changes.iter().map(Change::line).collect();
    write_book(&header, lines.iter().map(String::as_str))
}

/// Reads a file from the prose of the format alone: header, lines of changes, trailer.
pub fn read(text: &str) -> (Value, Vec<&str>, Value) {
    let text = text.strip_suffix('\n').expect("the last line ends too");
    let (before, trailer) = text.rsplit_once('\n').unwrap();
    let mut lines = before.split('\n');
    let header = serde_json::from_str(lines.next().unwrap()).unwrap();
    let changes: Vec<&str> = lines.collect();
    let trailer: Value = serde_json::from_str(trailer).unwrap();
    let digits: Vec<String> = Sha256::digest(before)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    assert_eq!(
        trailer["sha256"],
        digits.concat(),
        "over all lines before, joined by LF"
    );
    assert_eq!(trailer["count"], changes.len());
    assert_eq!(trailer.as_object().unwrap().len(), 2);
    (header, changes, trailer)
}

proptest! {
    #![proptest_config(crate::tries(64))]

    #[test]
    fn a_file_holds_the_whole_book_and_says_so(moves in moves(24)) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        settle(&mut devices);
        let device = &devices[0];
        let text = file_of(device);
        let (header, lines, _) = read(&text);
        prop_assert_eq!(&header["format"], "haulwren-book");
        prop_assert_eq!(&header["version"], 1);
        prop_assert_eq!(&header["currency"], "USD");
        prop_assert_eq!(&header["sender"], device.state.me.as_str());
        prop_assert_eq!(&header["book"], &device.state.book().unwrap().0.to_string());
        let have = header["have"].as_object().unwrap();
        prop_assert_eq!(have.values().map(|seq| seq.as_u64().unwrap()).sum::<u64>(), u64::try_from(lines.len()).unwrap());
        for line in &lines {
            let key = line.strip_prefix("{\"k\":\"").unwrap();
            let (of, seq) = key.split_at(key.find('"').unwrap()).0.split_once('/').unwrap();
            prop_assert!(have[of].as_u64().unwrap() >= seq.parse().unwrap());
        }
        let changes: Vec<Change> = lines.iter().map(|line| Change::from_line(line).unwrap()).collect();
        prop_assert_eq!(&State::from_changes(device.state.me, &changes), &device.state);
    }
}

#[test]
fn a_file_without_changes_is_a_header_and_a_trailer() {
    let device = Device::begun();
    let (book, currency) = device.state.book().unwrap();
    let header = Header::new(book, currency, device.state.me, device.vector().clone());
    let text = write_book(&header, []);
    assert_eq!(read(&text).1, Vec::<&str>::new());
    assert_eq!(text.lines().count(), 2);
}
