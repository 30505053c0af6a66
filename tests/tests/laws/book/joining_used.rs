//! Two used books made one: the settings of who joins hold, nothing about settings is left in dispute, and the other device has the same
//! once it hears of it.

use super::device::Device;
use super::files::file_of;
use super::joining::begun;
use super::program::{Timed, programs};
use super::reading::take_in;
use haulwren_core::book::{Command, Joining, Refusal, State};
use haulwren_core::change::RecordKey;
use haulwren_core::exchange::Meeting;
use haulwren_core::id::RulesId;
use haulwren_core::kind::RecordKind;
use haulwren_core::measure::System;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;

/// A device with a book of its own, in which something was done.
fn used(number: u8, did: &[Timed]) -> Device {
    let mut device = begun(number, "USD");
    for timed in did {
        // A refusal is a fine answer.
        drop(device.run(timed));
    }
    device
}

/// Takes in another one's file as the shell does: what holds is taken down before.
fn join(device: &mut Device, file: &str) -> Result<Meeting, TestCaseError> {
    let before = Joining::before(&device.state);
    let incoming = take_in(device, file).unwrap();
    if let Some(command) = incoming.follow_up(&before, "Phone") {
        match device.decide(&command) {
            Ok(edits) => drop(device.commit(edits)),
            Err(refusal) => prop_assert_eq!(refusal, Refusal::NoChange),
        }
        prop_assert_eq!(device.decide(&command), Err(Refusal::NoChange));
    }
    Ok(incoming.meeting)
}

/// The records that both books have: the rules, and the kinds to begin with.
fn shared(state: &State) -> BTreeMap<RecordKey, BTreeMap<String, Value>> {
    let rules = (RecordKind::Rules, RulesId::SINGLE.0);
    let kinds = state
        .tables
        .kinds
        .keys()
        .filter(|id| id.get_version_num() == 8);
    let kinds = kinds.map(|id| (RecordKind::Kind, *id));
    let records = std::iter::once(rules).chain(kinds);
    let records = records.map(|(kind, id)| {
        let record = RecordKey { kind, id };
        (
            record.clone(),
            state.fields_of(&record).into_iter().collect(),
        )
    });
    records.collect()
}

/// What is in dispute about settings.
fn about_settings(state: &State) -> Vec<(RecordKey, String)> {
    let mut disputed = state.disputed();
    disputed.retain(|(record, _)| shared(state).contains_key(record));
    disputed
}

/// Rules of the house that are said together.
fn are_set(rules: &BTreeMap<String, Value>) -> bool {
    rules.contains_key("no_loss_if_low")
}

/// What was said holds, in the words of the issue: own settings win.
fn holds(before: &State, after: &State) -> Result<(), TestCaseError> {
    let now = shared(after);
    for (record, fields) in shared(before) {
        for (field, value) in &fields {
            // A card goes by its newest version, and a venue that was taken away by the one that is used instead.
            if field != "usual_card" && field != "usual_venue" {
                prop_assert_eq!(
                    now[&record].get(field),
                    Some(value),
                    "{} of {}",
                    field,
                    record
                );
            }
        }
        if record.kind == RecordKind::Rules && are_set(&fields) {
            let currency = after.currency().unwrap();
            prop_assert_eq!(after.house_rules(currency), before.house_rules(currency));
            prop_assert_eq!(after.allowances(), before.allowances());
        }
        if record.kind == RecordKind::Kind && !fields.is_empty() {
            prop_assert_eq!(&now[&record], &fields);
        }
    }
    if before.usual_venue().is_some() {
        prop_assert_eq!(after.usual_venue(), before.usual_venue());
    }
    if let Some((card, _)) = before.usual_card() {
        prop_assert_eq!(after.usual_card().map(|(card, _)| card), Some(card));
    }
    Ok(())
}

proptest! {
    #![proptest_config(crate::tries(96))]

    #[test]
    fn the_settings_of_who_joins_hold(one_did in programs(25), other_did in programs(25)) {
        let (mut one, mut other) = (used(0, &one_did), used(1, &other_did));
        let before = one.state.clone();
        let met = join(&mut one, &file_of(&other))?;
        if met == Meeting::Two {
            prop_assert_eq!(one.state.book(), before.book());
            holds(&before, &one.state)?;
        } else {
            prop_assert_eq!(met, Meeting::Fresh);
            prop_assert_eq!(one.state.book(), other.state.book());
        }
        prop_assert!(about_settings(&one.state).is_empty());
        // The other one hears of it, and has nothing to do.
        let met = join(&mut other, &file_of(&one))?;
        prop_assert!(matches!(met, Meeting::Same | Meeting::Fresh));
        for device in [&one, &other] {
            prop_assert!(!device.state.attention().contains(&haulwren_core::book::Concern::SeveralBooks));
        }
        if met == Meeting::Same {
            prop_assert_eq!(&other.state.tables, &one.state.tables);
            prop_assert_eq!(other.state.book(), one.state.book());
        }
        prop_assert_eq!(&one.fresh(), &one.state);
    }

    /// Nothing of what was bought is lost by it, and sums add.
    #[test]
    fn joined_books_hold_what_both_held(one_did in programs(20), other_did in programs(20)) {
        let (mut one, other) = (used(0, &one_did), used(1, &other_did));
        let paid = |state: &State| state.lots().iter().map(|lot| lot.total.minor()).sum::<i64>();
        let all = paid(&one.state) + paid(&other.state);
        let things = one.state.things().count() + other.state.things().count();
        let venues = one.state.venues().count() + other.state.venues().count();
        join(&mut one, &file_of(&other))?;
        prop_assert_eq!(paid(&one.state), all);
        prop_assert_eq!(one.state.things().count(), things);
        prop_assert_eq!(one.state.venues().count(), venues);
    }

    /// Both join the other's at the same time. Then the older book counts for both, and of the settings that they set against each other
    /// the trader is asked; whoever settles it, settles it for both.
    #[test]
    fn two_that_join_each_other_end_with_one_book(one_did in programs(20), other_did in programs(20)) {
        let (mut one, mut other) = (used(0, &one_did), used(1, &other_did));
        let files = [file_of(&one), file_of(&other)];
        let books = [&one, &other].map(|device| device.state.book().unwrap().0);
        let met = [join(&mut one, &files[1])?, join(&mut other, &files[0])?];
        for _ in 0..2 {
            prop_assert_eq!(join(&mut other, &file_of(&one))?, Meeting::Same);
            prop_assert_eq!(join(&mut one, &file_of(&other))?, Meeting::Same);
        }
        prop_assert_eq!(&other.state.tables, &one.state.tables);
        let counts = one.state.book().unwrap().0;
        if met == [Meeting::Two, Meeting::Two] {
            prop_assert_eq!(counts, books[0].min(books[1]));
        }
        // Both say by settling which it is; nothing else is left to ask about books.
        let (mut left, mut round) = (about_settings(&one.state).len(), 0);
        while left > 0 && round < 100 {
            let (record, field) = about_settings(&one.state)[0].clone();
            let changes = one.changes_to(&record);
            let found = haulwren_core::view::dispute(&one.state, &record, &field, &changes).unwrap();
            let command: Command = found.settle(0).unwrap();
            let edits = one.decide(&command).unwrap();
            one.commit(edits);
            (left, round) = (about_settings(&one.state).len(), round + 1);
        }
        prop_assert_eq!(join(&mut other, &file_of(&one))?, Meeting::Same);
        prop_assert_eq!(&other.state.tables, &one.state.tables);
        prop_assert!(about_settings(&other.state).is_empty());
        prop_assert_eq!(other.state.book().unwrap().0, counts);
    }
}

/// Who only said in which units to measure takes the units of the book that comes in.
#[test]
fn an_untouched_book_takes_the_settings_of_the_file() {
    let units = |device: &mut Device, units| {
        let edits = device.decide(&Command::UseUnits(units)).unwrap();
        device.commit(edits);
    };
    let mut home = begun(1, "USD");
    units(&mut home, System::GramsCentimetres);
    for ounces in [false, true] {
        if ounces {
            units(&mut home, System::OuncesInches);
        }
        let mut once = begun(2, "USD");
        units(&mut once, System::GramsCentimetres);
        assert_eq!(join(&mut once, &file_of(&home)).unwrap(), Meeting::Fresh);
        assert_eq!(once.state.units(), home.state.units());
        assert!(once.state.disputed().is_empty());
        assert_eq!(once.state.book(), home.state.book());
    }
}
