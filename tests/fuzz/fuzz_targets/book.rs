//! Any changes that read at all, as they could stand in a file or in the storage: folded in any order they come to the same book, and every
//! screen is worked out of it. What is left out of the fuzzing otherwise, since no mutation keeps a digest: here the file is written anew.

#![no_main]

use haulwren_core::book::State;
use haulwren_core::change::{Change, Vector};
use haulwren_core::exchange::{Against, BookReader, Header, fold_in, take_home, write_book};
use haulwren_core::id::{BookId, DeviceCode};
use haulwren_core::money::Currency;
use haulwren_core::stamp::At;
use haulwren_core::view::{
    DecideDraft, Pile, decide, describe, haul, here, history_of, pile, pocket, trip, trips,
};
use libfuzzer_sys::fuzz_target;

const NOW: At = At(1_795_279_327_123, -300);

fn changes(data: &[u8]) -> Vec<(String, Change)> {
    let lines = data.split(|byte| *byte == b'\n');
    let lines = lines.filter_map(|line| std::str::from_utf8(line).ok());
    let read = lines.filter_map(|line| Some((line.to_owned(), Change::from_line(line).ok()?)));
    let mut changes: Vec<(String, Change)> = read.collect();
    changes.sort_by_key(|(_, change)| change.key);
    changes.dedup_by_key(|(_, change)| change.key);
    changes
}

/// Works out whatever a screen shows.
fn look_at(state: &State, changes: &[Change]) {
    let (view, sums) = (haul(state), state.reckoning());
    assert_eq!(
        sums.on_things
            .plus(sums.on_unsorted)
            .plus(sums.not_yet_shared),
        sums.paid.plus(sums.work)
    );
    assert_eq!(view.is_some(), take_home(state, None, true).is_some());
    // Before a book has its currency there is nothing to show.
    for row in trips(state).iter().filter(|_| view.is_some()) {
        let purse = trip(state, row.id).map(|trip| trip.purse);
        assert_eq!(purse, Some(state.purse(row.id)));
    }
    let _ = here(state);
    let _ = describe(state, changes);
    if let Some(first) = changes.first() {
        let _ = history_of(state, &first.record(), changes.to_vec());
    }
    let draft = DecideDraft {
        ask: "6".to_owned(),
        likely: "26".to_owned(),
        ..DecideDraft::default()
    };
    let _ = decide(state, &draft, NOW);
    let mut laid = Pile::default();
    let _ = laid.put(&draft, 2);
    let _ = pile(state, &laid, NOW);
    let _ = NOW.day().and_then(|day| pocket(state, day));
}

fuzz_target!(|data: &[u8]| {
    let all = changes(data);
    let Some((_, first)) = all.first() else {
        return;
    };
    let me: DeviceCode = "zzzzzzzz".parse().expect("a device code");
    let mut said: Vec<Change> = all.iter().map(|(_, change)| change.clone()).collect();
    let state = State::from_changes(me, &said);
    look_at(&state, &said);
    said.reverse();
    assert_eq!(State::from_changes(me, &said), state);

    // The same through a file.
    let mut have = Vector::default();
    for (_, change) in &all {
        have.note(change.key);
    }
    let usd = Currency::from_code("USD").expect("a currency");
    let header = Header::new(BookId::SINGLE, usd, first.key.device, have);
    let file = write_book(&header, all.iter().map(|(line, _)| line.as_str()));
    let mut reader = BookReader::new(Against::of(&State::new(me)));
    let read = reader.push(file.as_bytes()).and_then(|()| reader.finish());
    if let Ok(incoming) = read {
        let mut taken = State::new(me);
        fold_in(&mut taken, &incoming.changes, Vec::new());
        assert_eq!(taken.tables, state.tables);
    }
});
