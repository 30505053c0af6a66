//! What is read off the book.

use super::*;
use crate::kind::RecordKind;

#[test]
fn the_terms_that_hold_are_the_latest_that_have_started() {
    let mut state = State::new("abcdefgh".parse().expect("a code"));
    let venue = VenueId(Uuid::from_u128(1));
    let day = |text: &str| text.parse::<Day>().expect("a day");
    // Entered out of order, so that the younger id is not the later version.
    for (id, from) in [
        (3, "2026-01-01"),
        (2, "2026-03-01"),
        (4, "2026-05-01"),
        (5, "2026-05-01"),
    ] {
        let terms = Terms {
            venue: Some(venue),
            from: Some(day(from)),
            schedule: Some(Schedule::default()),
            ..Terms::default()
        };
        let value = Entry {
            value: terms,
            ..Entry::default()
        };
        state
            .tables
            .terms
            .insert(Uuid::from_u128(id), Box::new(value));
    }
    let check = |on, expected: Option<u128>| {
        let found = state.terms_on(venue, day(on)).map(|(id, _)| id.0.as_u128());
        assert_eq!(found, expected, "{on}");
    };
    check("2025-12-31", None);
    check("2026-01-01", Some(3));
    check("2026-03-01", Some(2));
    check("2026-06-01", Some(5));
}

#[test]
fn a_field_that_this_version_cannot_read_is_left_unset_and_stays_in_its_change() {
    let mut change = Told::begun().log.remove(0);
    (change.kind, change.id) = (RecordKind::Venue, Uuid::from_u128(7));
    change.set = serde_json::json!({"name": "Quayside", "arrangement": "free_above", "hue": "red"})
        .as_object()
        .expect("an object")
        .clone();
    let mut state = State::from_changes(change.device(), std::slice::from_ref(&change));
    let record = change.record();
    assert_eq!(
        state.stored(&record).as_deref(),
        Some(r#"{"set":{"name":"Quayside"}}"#)
    );
    assert!(
        change
            .line()
            .contains(r#""arrangement":"free_above","hue":"red""#)
    );
    let unknown = RecordKey {
        kind: RecordKind::from("sermon"),
        ..record
    };
    assert_eq!(state.stored(&unknown), None);
    assert!(state.load(&unknown, "{}").is_err());
}

#[test]
fn the_one_record_of_the_rules_has_the_nil_id() {
    assert_eq!(RulesId::SINGLE.0, Uuid::nil());
}
