//! A small book file, whole.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use super::story;
use haulwren_core::book::{State, Word};
use haulwren_core::change::{Change, Key};
use haulwren_core::exchange::{Header, Trailer, sha256};
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::haul;

const GOLDEN: &str = include_str!("book-v1.txt");

/// The golden file by its parts: header, changes, trailer.
fn parts() -> (Header, Vec<Change>, Trailer) {
    let lines: Vec<&str> = GOLDEN.lines().collect();
    let [header, changes @ .., trailer] = lines.as_slice() else {
        panic!("a book file has a header and a trailer");
    };
    let changes = changes.iter().map(|line| Change::from_line(line).unwrap());
    (
        serde_json::from_str(header).unwrap(),
        changes.collect(),
        serde_json::from_str(trailer).unwrap(),
    )
}

#[test]
fn the_book_file_is_written_as_it_always_was() {
    crate::golden!("book-v1.txt", &story::file());
}

#[test]
fn its_header_and_its_trailer_are_true() {
    let (header, changes, trailer) = parts();
    assert_eq!(
        (header.format.as_str(), header.version),
        ("haulwren-book", 1)
    );
    assert_eq!(
        header.have,
        changes.iter().map(|change| change.key).collect()
    );
    assert_eq!(trailer.count, u64::try_from(changes.len()).unwrap());
    let before = GOLDEN.trim_end().rsplit_once('\n').unwrap().0;
    assert_eq!(trailer.sha256, sha256(before.as_bytes()));
    let written = [
        serde_json::to_string(&header),
        serde_json::to_string(&trailer),
    ];
    let [first, last] = [GOLDEN.lines().next(), GOLDEN.lines().last()].map(Option::unwrap);
    assert_eq!(written.map(Result::unwrap), [first, last]);
}

/// What a reader of any later version has to find in it.
#[test]
fn the_book_in_it_is_there() {
    let (header, changes, _) = parts();
    let state = State::from_changes(header.sender, &changes);
    assert_eq!(
        state.book(),
        Some((header.book, Currency::from_code("USD").unwrap()))
    );
    assert_eq!(state.vector, header.have);
    assert_eq!(state.name_of(header.sender), "Phone");
    let (id, venue) = state.venues().next().unwrap();
    assert_eq!(
        (venue.name.as_deref(), state.usual_venue()),
        (Some("Quayside"), Some(id))
    );

    let haul = haul(&state).unwrap();
    assert_eq!((haul.sums.spent, haul.rows.len()), (Money::new(600), 1));
    let row = &haul.rows[0];
    let expected = row.expected.as_ref().unwrap();
    assert_eq!(
        (expected.verdict, expected.ceiling),
        (Word::Buy, Some(Money::new(1010)))
    );
    // The computer's clock was ahead by five seconds, so its name is used meanwhile.
    assert_eq!((row.name.as_str(), row.disputed), ("Work jacket", true));
    let disputes = &state.tables.things[&row.id.0].disputes;
    let parties: Vec<String> = disputes
        .get("name")
        .unwrap()
        .iter()
        .map(Key::to_string)
        .collect();
    assert_eq!((disputes.len(), parties.len()), (1, 2));
    let last = changes
        .iter()
        .find(|change| change.key.to_string() == parties[1])
        .unwrap();
    assert_eq!(last.set["name"], row.name);

    // The thing that was taken back is still on record.
    let gone = state
        .tables
        .things
        .values()
        .find(|entry| entry.value.gone)
        .unwrap();
    assert_eq!(gone.value.name.as_deref(), Some("Brass lamp"));
}
