//! Book files read back: what was written comes out again, and a file that is not whole changes nothing.

use super::device::Device;
use super::files::file_of;
use super::replicas::{moves, play, settle};
use haulwren_core::book::State;
use haulwren_core::change::{Change, Key};
use haulwren_core::exchange::{
    Against, BookReader, Incoming, Line, Meeting, ReadError, fold_in, sha256,
};
use proptest::collection::vec;
use proptest::prelude::*;

/// Reads a file into a book, the bytes in pieces of this size.
pub fn read(state: &State, file: &[u8], size: usize) -> Result<Incoming, ReadError> {
    let mut reader = BookReader::new(Against::of(state));
    for piece in file.chunks(size) {
        reader.push(piece)?;
    }
    reader.finish()
}

/// Reads a file on a device and takes what is new, as the shell does: all is checked before anything is taken.
pub fn take_in(device: &mut Device, file: &str) -> Result<Incoming, ReadError> {
    let incoming = read(&device.state, file.as_bytes(), 1_000)?;
    for change in &device.log {
        incoming.compare(change.key, &change.line())?;
    }
    let touched = incoming.touched();
    let existing = device
        .log
        .iter()
        .filter(|one| touched.contains(&one.record()));
    let existing = existing.cloned().collect();
    fold_in(&mut device.state, &incoming.changes, existing);
    device.log.extend(incoming.changes.iter().map(Line::change));
    Ok(incoming)
}

/// Lines under a trailer that fits them.
fn sealed(lines: &[&str]) -> String {
    let text = lines.join("\n");
    let (count, digest) = (lines.len() - 1, sha256(text.as_bytes()));
    format!("{text}\n{{\"count\":{count},\"sha256\":\"{digest}\"}}\n")
}

/// A device of somebody who has no book yet.
fn nobody() -> State {
    State::new("zzzzzzzz".parse().unwrap())
}

/// Two devices that did some of everything, and the file of one.
fn small() -> String {
    let mut devices = Device::several(2);
    for device in &mut devices {
        for name in ["Coat", "Lamp \u{e9}\"\\"] {
            let thing = haulwren_core::book::Bought {
                name: name.to_owned(),
                ..Default::default()
            };
            let paid = haulwren_core::money::Money::new(600);
            let buy = haulwren_core::book::Purchase::of_one(paid, thing);
            let edits = device
                .decide(&haulwren_core::book::Command::Buy(buy))
                .unwrap();
            device.commit(edits);
        }
    }
    settle(&mut devices);
    file_of(&devices[0])
}

proptest! {
    #![proptest_config(crate::tries(48))]

    #[test]
    fn what_was_written_is_read_byte_for_byte(moves in moves(24), size in 1_usize..5_000) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        for device in &devices {
            let file = file_of(device);
            let incoming = read(&nobody(), file.as_bytes(), size).unwrap();
            let mut log = device.log.clone();
            log.sort_by_key(|change| change.key);
            let lines: Vec<&str> = incoming.changes.iter().map(|line| line.text.as_str()).collect();
            prop_assert_eq!(&lines, &log.iter().map(Change::line).collect::<Vec<_>>());
            prop_assert_eq!(lines, file.lines().skip(1).take(log.len()).collect::<Vec<_>>());
            for (line, change) in incoming.changes.iter().zip(&log) {
                prop_assert_eq!((line.key, line.stamp, &line.record), (change.key, change.stamp, &change.record()));
                prop_assert_eq!(&line.change(), change);
            }
            prop_assert_eq!((incoming.meeting, incoming.already_known), (Meeting::Fresh, 0));
            prop_assert_eq!(&incoming.sender_has, device.vector());
            prop_assert_eq!(incoming.new.iter().map(|of| of.changes).sum::<usize>(), log.len());
            prop_assert_eq!(incoming.new.iter().map(|of| of.records).sum::<usize>(), device.records().len());
            let mut state = State::new(device.state.me);
            fold_in(&mut state, &incoming.changes, Vec::new());
            prop_assert_eq!(&state, &device.state);
        }
    }

    /// Whatever a line comes to be, under a trailer that fits it: it is refused, or it is a whole change and the book folds.
    #[test]
    fn a_forged_file_is_refused_or_whole(line in any::<prop::sample::Index>(), at in any::<prop::sample::Index>(), with in "\\PC{0,3}", long in 0_usize..4) {
        let file = small();
        let mut lines: Vec<&str> = file.lines().collect();
        lines.pop();
        let which = line.index(lines.len());
        let from = at.index(lines[which].len());
        let (head, tail) = (lines[which].get(..from), lines[which].get(from + long..));
        let bent = format!("{}{with}{}", head.unwrap_or_default(), tail.unwrap_or_default());
        lines[which] = &bent;
        if let Ok(incoming) = read(&nobody(), sealed(&lines).as_bytes(), 4_096) {
            prop_assert_eq!(incoming.changes.len(), lines.len() - 1);
            let mut state = nobody();
            fold_in(&mut state, &incoming.changes, Vec::new());
            prop_assert_eq!(&state.vector, &incoming.changes.iter().map(|line| line.key).collect());
        }
    }

    #[test]
    fn any_bytes_at_all_are_refused(bytes in vec(any::<u8>(), 0..300), text in any::<String>()) {
        prop_assert!(read(&nobody(), &bytes, 7).is_err());
        prop_assert!(read(&nobody(), text.as_bytes(), 7).is_err());
        let file = small();
        let begun = format!("{}\n{text}", file.lines().next().unwrap());
        prop_assert!(read(&nobody(), begun.as_bytes(), 7).is_err());
    }

    /// Without one of its lines a file is refused, unless it was the last of its device and nothing rests on it.
    #[test]
    fn a_line_that_is_missing_is_missed(line in any::<prop::sample::Index>()) {
        let file = small();
        let mut lines: Vec<&str> = file.lines().collect();
        lines.pop();
        let gone = Change::from_line(lines.remove(1 + line.index(lines.len() - 1))).unwrap();
        let rests = |line: &&str| {
            let change = Change::from_line(line).unwrap();
            change.knows(&gone)
        };
        let is_missed = lines[1..].iter().any(rests);
        prop_assert_eq!(read(&nobody(), sealed(&lines).as_bytes(), 4_096).is_err(), is_missed);
    }
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let file = small();
    let whole = read(&nobody(), file.as_bytes(), 4_096).unwrap();
    for end in 0..file.len() {
        let found = read(&nobody(), &file.as_bytes()[..end], 4_096);
        if end == file.len() - 1 {
            assert_eq!(
                found.as_ref(),
                Ok(&whole),
                "only the last line's end is gone"
            );
        } else {
            let error = found.expect_err("a cut file");
            // The last line that is there, whole or begun; none in an empty file.
            let lines = file.as_bytes()[..end].split_inclusive(|byte| *byte == b'\n');
            let is_cut = error.line().unwrap_or(0) == lines.count();
            assert!(is_cut, "cut at {end}: {error}");
        }
    }
}

/// Every byte with each of its bits turned over: the file is refused, or says exactly the same.
#[test]
fn a_bit_turned_over_anywhere_is_noticed() {
    let file = small();
    let whole = read(&nobody(), file.as_bytes(), 4_096).unwrap();
    let mut taken = Vec::new();
    for at in 0..file.len() {
        for bit in 0..8 {
            let mut bent = file.clone().into_bytes();
            bent[at] ^= 1 << bit;
            match read(&nobody(), &bent, 4_096) {
                Err(_) => {}
                Ok(incoming) => {
                    assert_eq!(incoming, whole, "bit {bit} of byte {at}");
                    taken.push(at);
                }
            }
        }
    }
    // What ends the last line may be any blank.
    assert!(taken.iter().all(|at| *at == file.len() - 1), "{taken:?}");
}

#[test]
fn no_line_is_longer_than_two_mebibytes() {
    let file = small();
    let head = file.lines().next().unwrap();
    let long = |length: usize| {
        let bytes = format!("{head}\n{}\n", "x".repeat(length)).into_bytes();
        read(&nobody(), &bytes, 64 << 10).unwrap_err().to_string()
    };
    assert!(long(haulwren_core::change::MAX_LINE).contains("no line of this book format"));
    assert!(long(haulwren_core::change::MAX_LINE + 1).contains("longer than 2 MiB"));
    assert!(long(5 << 20).contains("longer than 2 MiB"));
}

/// What this device said itself and then lost comes back, and its next change has a number of its own.
#[test]
fn a_device_gets_its_own_words_back() {
    let mut device = Device::begun();
    let file = file_of(&device);
    device.state = State::new(device.state.me);
    device.log.clear();
    let incoming = take_in(&mut device, &file).unwrap();
    let me = device.state.me;
    assert_eq!(
        device.state.head(),
        u64::try_from(incoming.changes.len()).unwrap()
    );
    assert_eq!(
        device.log.last().unwrap().key,
        Key {
            device: me,
            seq: device.state.head()
        }
    );
}
