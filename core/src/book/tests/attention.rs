//! What needs the trader after two devices were told different things.

use super::*;
use crate::id::{DeviceId, LotId, TripId, WorkId};

#[test]
fn what_a_merge_leaves_wrong_is_named_until_it_is_mended() {
    let mut phone = Told::begun();
    phone.tell(&start());
    phone.tell(&next("Alder Lane"));
    let mut home = other(&phone, "ijklmnop");
    assert!(phone.state.attention().is_empty());
    let (stop, _) = phone.state.open_stop().expect("a stop");
    let (trip, _) = phone.state.open_trip().expect("a trip");
    phone.tell(&TripCommand::RemoveStop(stop).into());
    home.tell(&Command::Buy(buy("Lamp", 600)));
    exchange(&mut phone, &mut home);
    assert_eq!(phone.state.attention(), [Concern::StopGone(stop)]);
    phone.tell(&Command::put_back(stop.record()));
    assert!(phone.state.attention().is_empty());
    // Undoing its start takes the trip away from under its stops.
    let started = phone.log.iter().filter(|change| change.id == trip.0);
    let save = started.map(|change| change.save).min().expect("a start");
    let mine = |change: &&Change| change.device() == phone.state.me && change.save == save;
    let started: Vec<Change> = phone.log.iter().filter(mine).cloned().collect();
    phone.undo(&started);
    assert_eq!(phone.state.attention(), [Concern::TripGone(trip)]);
    phone.tell(&Command::put_back(trip.record()));
    assert!(phone.state.attention().is_empty());
}

fn start() -> Command {
    TripCommand::StartTrip {
        name: String::new(),
        took_out: None,
        odometer: None,
    }
    .into()
}

fn next(name: &str) -> Command {
    let name = name.to_owned();
    TripCommand::NextStop { stop: None, name }.into()
}

#[test]
fn two_trips_under_way_and_two_venues_of_one_name_are_named() {
    let mut phone = Told::begun();
    let mut home = other(&phone, "ijklmnop");
    for told in [&mut phone, &mut home] {
        told.tell(&start());
        told.tell(&save_venue(None, setup("Quayside", 10)));
    }
    exchange(&mut phone, &mut home);
    let trips: Vec<TripId> = phone.state.trips().map(|(id, _)| id).collect();
    let venues: Vec<VenueId> = phone.state.venues().map(|(id, _)| id).collect();
    let venue = VenueId::record;
    let rules = RulesId::SINGLE.record();
    let expected = [
        Concern::Dispute {
            record: rules,
            field: "usual_venue".to_owned(),
        },
        Concern::StillOpen {
            trip: trips[0],
            last: trips[1],
        },
        Concern::OneName {
            first: venue(venues[0]),
            second: venue(venues[1]),
            name: "Quayside".to_owned(),
        },
    ];
    assert_eq!(phone.state.attention(), expected);
}

#[test]
fn money_that_is_on_no_thing_is_named() {
    let mut phone = Told::begun();
    let bought = phone.tell(&lot_of(10_00, &[("coat", 22_00), ("boots", 12_00)]));
    let (lot, dress) = (LotId(bought[0].id), ThingId(bought[1].id));
    let method = Method::ByHand;
    phone.tell(&LotCommand::SetMethod { lot, method }.into());
    assert!(phone.state.attention().is_empty());
    // By price the coat had 6.47 of it.
    let share = Some(Money::ZERO);
    let thing = dress;
    phone.tell(&ThingCommand::FixShare { thing, share }.into());
    let missing = Money::new(6_47);
    assert_eq!(
        phone.state.attention(),
        [Concern::NotShared { lot, missing }]
    );
    let method = Method::Evenly;
    phone.tell(&LotCommand::SetMethod { lot, method }.into());
    let wash = ThingCommand::AddWork {
        name: "Wash".to_owned(),
        cost: Money::new(5_00),
        day: NOON.day().expect("a day"),
        things: vec![dress],
    };
    let work = WorkId(phone.tell(&wash.into())[0].id);
    phone.tell(&Command::TakeOut(dress));
    let cost = Money::new(5_00);
    assert_eq!(
        phone.state.attention(),
        [Concern::WorkOnNothing { work, cost }]
    );
    phone.tell(&ThingCommand::RemoveWork(work).into());
    assert!(phone.state.attention().is_empty());
}

#[test]
fn a_device_that_stands_twice_in_the_book_keeps_its_oldest_name() {
    let mut phone = Told::begun();
    let code = phone.state.me;
    let again = DeviceId(Uuid::max()).edit([
        DeviceEdit::Code(Some(code)),
        DeviceEdit::Name(Some("Old phone".to_owned())),
    ]);
    phone.save(vec![again]);
    assert_eq!(phone.state.attention(), [Concern::SeveralNames(code)]);
    phone.tell(&Command::OneDevice(code));
    assert!(phone.state.attention().is_empty());
    assert_eq!(phone.state.name_of(code), "Phone");
    phone.refuses(&Command::OneDevice(code), Refusal::NoChange);
}
