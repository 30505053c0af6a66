//! Commands: what is refused, and what a save says.

use super::*;

#[test]
fn nothing_is_taken_before_the_book_has_begun_and_it_begins_once() {
    let mut told = Told::new();
    told.refuses(&Command::Buy(buy("Lamp", 600)), Refusal::NotBegun);
    told.refuses(&begin("  "), Refusal::NoName);
    assert_eq!(kinds(&told.tell(&begin(" Phone "))), ["book", "device"]);
    assert_eq!(told.state.name_of(told.state.me), "Phone");
    told.refuses(&begin("Phone"), Refusal::AlreadyBegun);
}

#[test]
fn a_clock_beyond_the_calendar_is_refused_by_every_command() {
    let mut told = Told::begun();
    for ms in [u64::MAX, 1 << 63, 253_402_300_800_000] {
        told.now = At(ms, 0);
        told.refuses(&Command::Buy(buy("Lamp", 600)), Refusal::ClockOff);
        told.refuses(&begin("Phone"), Refusal::ClockOff);
    }
}

#[test]
fn purchases_are_held_against_their_limits() {
    let mut told = Told::begun();
    let over = Money::TYPED_MAX.plus(Money::new(1)).minor();
    told.refuses(&Command::Buy(buy("Lamp", -1)), Refusal::Negative);
    told.refuses(&Command::Buy(buy("Lamp", over)), Refusal::TooLarge);
    let long = Refusal::NameTooLong { limit: 80 };
    told.refuses(&Command::Buy(buy(&"\u{e9}".repeat(81), 0)), long);
    let bought = told.tell(&Command::Buy(buy(&"\u{e9}".repeat(80), 0)));
    assert_eq!(kinds(&bought), ["lot", "thing"]);
    // A thing without a name says nothing of one.
    let bought = told.tell(&Command::Buy(buy("  ", 0)));
    assert!(!bought[1].set.contains_key("name"));
}

#[test]
fn venues_are_held_against_their_limits() {
    let mut told = Told::begun();
    told.tell(&save_venue(None, setup("Quayside", 10)));
    let (id, _) = told.state.venues().next().expect("a venue");
    told.refuses(
        &save_venue(None, setup(" Quayside", 12)),
        Refusal::NameTaken,
    );
    told.refuses(
        &save_venue(Some(id), setup("Quayside", 10)),
        Refusal::NoChange,
    );
    told.refuses(
        &save_venue(None, setup("Marlpost", 100)),
        Refusal::Terms(TermsError::TakesAll),
    );
    told.refuses(
        &save_venue(Some(VenueId(Uuid::max())), setup("Marlpost", 10)),
        Refusal::NoVenue,
    );
    told.refuses(&Command::UseVenue(id), Refusal::NoChange);
    told.tell(&Command::RemoveVenue(id));
    for command in [
        Command::UseVenue(id),
        Command::RemoveVenue(id),
        save_venue(Some(id), setup("Quayside", 10)),
    ] {
        told.refuses(&command, Refusal::NoVenue);
    }
}

#[test]
fn a_venue_that_is_saved_says_only_what_changed() {
    let mut told = Told::begun();
    assert_eq!(
        kinds(&told.tell(&save_venue(None, setup("Quayside", 10)))),
        ["venue", "terms", "rules"]
    );
    let (id, _) = told.state.venues().next().expect("a venue");
    let dearer = VenueSetup {
        postage: Some(Money::new(500)),
        ..setup("Quayside", 10)
    };
    let saved = told.tell(&save_venue(Some(id), dearer));
    let fields: Vec<&str> = saved
        .iter()
        .flat_map(|change| change.set.keys())
        .map(String::as_str)
        .collect();
    assert_eq!((kinds(&saved), fields), (vec!["venue"], vec!["postage"]));
}

/// Terms that no verdict rests on yet are mended in place on their first day; else a new version is written.
#[test]
fn used_terms_are_never_edited() {
    let mut told = Told::begun();
    told.tell(&save_venue(None, setup("Quayside", 10)));
    let (id, _) = told.state.venues().next().expect("a venue");
    let terms = |told: &Told| {
        told.state
            .terms_on(id, told.now.day().expect("a day"))
            .expect("terms")
            .0
    };
    let first = terms(&told);
    told.tell(&save_venue(Some(id), setup("Quayside", 12)));
    assert_eq!(terms(&told), first);

    let verdict = Expected {
        venue: id,
        terms: first,
        ask: Money::new(600),
        keep: Money::new(410),
        ceiling: None,
        verdict: Word::Buy,
        card: None,
        rough: false,
        sells: None,
    };
    let mut lamp = buy("Lamp", 600);
    lamp.things[0].expected = Some(verdict);
    told.tell(&Command::Buy(lamp));
    // Even when the clock has been set back since, the new version of the same day holds.
    told.now.0 -= 3_600_000;
    told.tell(&save_venue(Some(id), setup("Quayside", 15)));
    assert_ne!(terms(&told), first);
    let schedule = |id: TermsId| told.state.tables.terms[&id.0].value.schedule.clone();
    assert_eq!(schedule(first), Some(setup("", 12).schedule));
    assert_eq!(schedule(terms(&told)), Some(setup("", 15).schedule));
}

#[test]
fn rules_are_held_against_their_limits_and_a_rule_can_be_switched_off() {
    let mut told = Told::begun();
    let currency = told.state.currency().expect("a currency");
    let allowances = told.state.allowances();
    let start = HouseRules::starting(currency);
    let set = |rules, allowances| Command::SetRules { rules, allowances };
    told.refuses(&set(start, allowances), Refusal::NoChange);
    let below = HouseRules {
        least_keep: Some(Money::new(-1)),
        ..start
    };
    told.refuses(
        &set(below, allowances),
        Refusal::Rules(RulesError::NegativeKeep),
    );
    let over = Allowances {
        unsold: Rate::percent(95),
        ..allowances
    };
    told.refuses(
        &set(start, over),
        Refusal::Allowances(WorthError::AllowancesOverHundred),
    );

    let keep = HouseRules {
        least_keep: Some(Money::new(400)),
        ..start
    };
    told.tell(&set(keep, allowances));
    assert_eq!(told.state.house_rules(currency), keep);
    let off = told.tell(&set(start, allowances));
    assert_eq!(off[0].set.len(), 1);
    assert_eq!(told.state.house_rules(currency), start);
}

#[test]
fn things_are_renamed_and_taken_out_while_they_are_there() {
    let mut told = Told::begun();
    let thing = ThingId(told.tell(&Command::Buy(buy("Lamp", 600)))[1].id);
    let rename = |name: &str| Command::Rename {
        thing,
        name: name.to_owned(),
    };
    told.refuses(&rename("Lamp "), Refusal::NoChange);
    told.refuses(&rename(""), Refusal::NoName);
    told.tell(&rename("Brass lamp"));
    assert_eq!(
        kinds(&told.tell(&Command::TakeOut(thing))),
        ["thing", "lot"]
    );
    told.refuses(&Command::TakeOut(thing), Refusal::NoThing);
    told.refuses(&rename("Lamp"), Refusal::NoThing);
}

#[test]
fn things_of_a_lot_keep_their_order_and_share_its_price() {
    let mut told = Told::begun();
    let things = [("dress", 2_200), ("satchel", 1_200), ("scarf", 800)];
    told.tell(&lot_of(1_000, &things));
    let names: Vec<_> = told
        .state
        .things()
        .map(|(_, thing)| thing.name.clone().unwrap())
        .collect();
    assert_eq!(names, ["dress", "satchel", "scarf"]);
    assert_eq!(costs(&told), [524, 286, 190]);
}
