//! Book files that are none, or not whole, by their names in the folder beside this file; and what the trader is told of each. Whatever
//! is wrong, nothing of them is taken.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::book::State;
use haulwren_core::exchange::{Against, BookReader, Incoming, ReadError, fold_in};

/// What a file holds, and what is said of it.
macro_rules! bad {
    ($($name:literal: $said:literal,)*) => {
        &[$(($name, include_bytes!(concat!("bad/", $name)), $said)),*]
    };
}

const AGAIN: &str = " Ask for the file again.";
const WHOLE: &[u8] = include_bytes!("bad/whole.txt");

/// A star stands for the request to send it again.
const BAD: &[(&str, &[u8], &str)] = bad! {
    "empty.txt": "The file is empty.",
    "table.txt": "This is not a Haulwren book file: its first line is not the head of one.",
    "other-json.txt": "This is not a Haulwren book file: its first line is not the head of one.",
    "other-json-lines.txt": "This is not a Haulwren book file: its first line is not the head of one.",
    "utf16.bin": "This is not a Haulwren book file: its first line is not the head of one.",
    "newer.txt": "A newer Haulwren wrote this file (format 2). Update Haulwren here, then open it again.",
    "head-without-book.txt": "Line 1 of the file is damaged (it is no line of this book format: missing field `book`).*",
    "head-field-twice.txt": "Line 1 of the file is damaged (it is no line of this book format: a field stands twice).*",
    "cut-in-head.txt": "The file ends too early, at line 1: its end is missing.*",
    "cut-in-a-change.txt": "The file ends too early, at line 3: its end is missing.*",
    "cut-between-lines.txt": "The file ends too early, at line 3: its end is missing.*",
    "cut-in-the-end.txt": "The file ends too early, at line 6: its end is missing.*",
    "altered-name.txt": "The file was altered on its way: the check sum in line 6 does not fit.*",
    "altered-sum.txt": "The file was altered on its way: the check sum in line 6 does not fit.*",
    "one-line-less.txt": "Line 5, the last, says 4 changes, and there are 3.*",
    "one-line-more.txt": "Line 6, the last, says 3 changes, and there are 4.*",
    "after-the-end.txt": "Line 7 stands after the end of the book.*",
    "two-books.txt": "Line 7 stands after the end of the book.*",
    "blank-line.txt": "Line 4 of the file is damaged (it is no line of this book format: EOF while parsing a value at column 0).*",
    "not-utf8.bin": "Line 5 of the file is damaged (it is not UTF-8 text).*",
    "not-a-change.txt": "Line 5 of the file is damaged (it is no line of this book format: missing field `k`).*",
    "field-twice.txt": "Line 5 of the file is damaged (it is no line of this book format: a field stands twice).*",
    "unknown-field-of-a-change.txt": "Line 5 of the file is damaged (it is no line of this book format: there is a field that no change has).*",
    "too-deep.txt": "Line 5 of the file is damaged (the line nests deeper than 16 levels).*",
    "stamp-of-another.txt": "Line 5 of the file is damaged (the change carries another device's stamp).*",
    "hole.txt": "Line 4 of the file goes from change 2 of Phone to change 4: some are missing.*",
    "begins-later.txt": "The file begins after change 2 of Phone, yours ends at 0: ask for a whole book.",
    "again.txt": "Line 6 of the file has change 4 of Phone again.*",
    "again-with-other-words.txt": "Line 6 of the file has change 4 of Phone again.*",
    "backwards.txt": "The file begins after change 1 of Phone, yours ends at 0: ask for a whole book.",
    "rests-on-missing.txt": "Line 6 of the file rests on change 7 of Phone, and you would have them up to 4: ask for a whole book.",
    "two-currencies.txt": "Line 2 of the file is damaged (it says another currency than line 1).*",
};

fn nobody() -> State {
    State::new("zzzzzzzz".parse().unwrap())
}

fn read(state: &State, file: &[u8]) -> Result<Incoming, ReadError> {
    let mut reader = BookReader::new(Against::of(state));
    for piece in file.chunks(100) {
        reader.push(piece)?;
    }
    reader.finish()
}

fn said(error: &ReadError) -> String {
    error.sentence(&|_| "Phone".to_owned())
}

#[test]
fn each_bad_file_is_refused_with_its_sentence() {
    for (name, file, expected) in BAD {
        let error = read(&nobody(), file).expect_err(name);
        assert_eq!(said(&error), expected.replace('*', AGAIN), "{name}");
    }
}

#[test]
fn the_file_that_they_were_made_from_is_whole() {
    let incoming = read(&nobody(), WHOLE).unwrap();
    assert_eq!(incoming.changes.len(), 4);
}

#[test]
fn other_money_is_refused_by_a_book_in_use() {
    let mut state = nobody();
    let incoming = read(&state, WHOLE).unwrap();
    fold_in(&mut state, &incoming.changes, Vec::new());
    let error = read(&state, include_bytes!("bad/euros.txt")).unwrap_err();
    let expected = "The file's book is in EUR and this one in USD. A book has one currency, so they can't be joined.";
    assert_eq!(said(&error), expected);
    // Nobody's book takes it.
    assert!(read(&nobody(), include_bytes!("bad/euros.txt")).is_ok());
}

/// Were one of them in the folder and not in the list, nothing would hold it.
#[cfg(not(target_arch = "wasm32"))]
#[test]
fn every_file_of_the_folder_is_tried() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/bad");
    let mut there: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let mut tried: Vec<&str> = BAD.iter().map(|bad| bad.0).collect();
    tried.extend(["whole.txt", "euros.txt"]);
    there.sort_unstable();
    tried.sort_unstable();
    assert_eq!(there, tried);
}
