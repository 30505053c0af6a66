//! Any bytes as a book file: it is refused with its line, or read; and in pieces of any size it comes to the same as in one.

#![no_main]

use haulwren_core::book::State;
use haulwren_core::change::Change;
use haulwren_core::exchange::{Against, BookReader, Incoming, ReadError};
use libfuzzer_sys::fuzz_target;

fn read<'a>(pieces: impl Iterator<Item = &'a [u8]>) -> Result<Incoming, ReadError> {
    let nobody = "zzzzzzzz".parse().expect("a device code");
    let mut reader = BookReader::new(Against::of(&State::new(nobody)));
    for piece in pieces {
        reader.push(piece)?;
    }
    reader.finish()
}

/// Cuts by the bytes themselves, so that a run can be repeated.
fn cut(data: &[u8]) -> Vec<&[u8]> {
    let mut pieces = Vec::new();
    let (mut rest, mut turn) = (data, data.len());
    while !rest.is_empty() {
        turn = turn.wrapping_mul(31).wrapping_add(usize::from(rest[0]));
        let (piece, more) = rest.split_at((turn % 97).min(rest.len()));
        pieces.push(piece);
        rest = more;
        // A piece of nothing is a piece too, but they must come to an end.
        turn = turn.wrapping_add(1);
    }
    pieces
}

fuzz_target!(|data: &[u8]| {
    let whole = read(std::iter::once(data));
    assert_eq!(read(cut(data).into_iter()), whole);
    if let Ok(incoming) = whole {
        for line in &incoming.changes {
            let change = Change::from_line(&line.text).expect("a line that was taken");
            assert_eq!((change.key, change.stamp), (line.key, line.stamp));
        }
    }
});
