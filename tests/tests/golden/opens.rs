//! Book files that must open for ever: the golden one, and one of a later time whose kinds and fields are not known yet.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use super::story;
use haulwren_core::book::State;
use haulwren_core::exchange::{Against, BookReader, Incoming, Meeting, NewOf, fold_in, take_home};
use haulwren_core::kind::RecordKind;

const GOLDEN: &str = include_str!("book-v1.txt");
const LATER: &str = include_str!("later-v1.txt");

fn nobody() -> State {
    State::new("zzzzzzzz".parse().unwrap())
}

fn read(file: &str) -> Incoming {
    let mut reader = BookReader::new(Against::of(&nobody()));
    reader.push(file.as_bytes()).unwrap();
    reader.finish().unwrap()
}

fn of(kind: &str, records: usize, changes: usize) -> NewOf {
    let kind = RecordKind::from(kind);
    NewOf {
        kind,
        records,
        changes,
    }
}

#[test]
fn the_golden_book_opens() {
    let incoming = read(GOLDEN);
    assert_eq!(
        (incoming.meeting, incoming.already_known),
        (Meeting::Fresh, 0)
    );
    let new = [
        of("book", 1, 1),
        of("device", 1, 1),
        of("lot", 2, 3),
        of("rules", 1, 1),
        of("terms", 1, 1),
        of("thing", 2, 5),
        of("venue", 1, 1),
    ];
    assert_eq!(incoming.new, new);
    assert_eq!(incoming.sender_has, incoming.header.have);
    let mut state = State::new(incoming.header.sender);
    fold_in(&mut state, &incoming.changes, Vec::new());
    // As the phone itself has it, disputes included.
    assert_eq!(state, story::told().0);
}

/// What is not known stays in its line, and wakes up in a version that knows it.
#[test]
fn a_book_of_a_later_time_opens_and_keeps_what_is_not_known() {
    let incoming = read(LATER);
    let lines: Vec<&str> = incoming
        .changes
        .iter()
        .map(|line| line.text.as_str())
        .collect();
    let written: Vec<&str> = LATER.lines().collect();
    assert_eq!(lines, written[1..written.len() - 1]);
    assert_eq!(incoming.new.last(), Some(&of("trip", 1, 1)));
    let mut state = nobody();
    fold_in(&mut state, &incoming.changes, Vec::new());
    assert_eq!(state.vector, incoming.header.have);
    let (_, thing) = state.things().next().unwrap();
    assert_eq!(thing.name.as_deref(), Some("Jacket"));
}

#[test]
fn the_golden_book_is_a_table_to_take_home() {
    let (state, _) = story::told();
    let table = take_home(&state, None, false).unwrap();
    let lines: Vec<&str> = table.split("\r\n").collect();
    let [head, jacket, ""] = lines[..] else {
        panic!("{table}");
    };
    let shown: Vec<String> = head
        .split(',')
        .zip(jacket.split(','))
        .map(|(name, cell)| format!("{name}={cell}"))
        .collect();
    let expected = "day=2026-11-21 thing=Work jacket kind= paid=6.00 work= sells_likely=26.00 keep_now=9.80 keep_if_sold=13.70 sells_low=18.00 \
        sells_high=34.00 maker= label= colour= flaw= pieces= stop= paid_by=cash kept=no verdict=Buy ask=6.00 no_more_than=10.10 \
        keep_expected=4.10 rough=no venue=Quayside postage=4.50 packing=0.40 weight= weight_g= size= stands_for=thing things=1 \
        shared=evenly share_fixed= lot_paid=6.00 lot_on_top= lot_things=1 to_settle=name currency=USD \
        lot=01a1ff00-3913-7707-8707-070707070707 id=01a1ff00-3913-7808-8808-080808080808";
    assert_eq!(shown.join(" "), expected);
}
