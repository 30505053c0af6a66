//! Trips, stops and the purse: what a save says, and what is refused.

use super::*;
use crate::id::{StopId, TripId};
use crate::ledger::Moved;
use crate::trip::Manner;

pub(super) fn start(took_out: i64) -> Command {
    let odometer = Some(81_204);
    TripCommand::StartTrip {
        name: String::new(),
        took_out: Some(Money::new(took_out)),
        odometer,
    }
    .into()
}

fn end(odometer: Option<u32>) -> Command {
    let distance = None;
    TripCommand::EndTrip { odometer, distance }.into()
}

pub(super) fn next(name: &str) -> Command {
    let (stop, name) = (None, name.to_owned());
    TripCommand::NextStop { stop, name }.into()
}

pub(super) fn cash(what: Moved, amount: i64) -> Command {
    TripCommand::MoveCash {
        what,
        amount: Money::new(amount),
        note: String::new(),
    }
    .into()
}

pub(super) fn left(told: &Told) -> i64 {
    told.state.cash_left().expect("a trip").minor()
}

pub(super) fn here(told: &Told) -> (StopId, Stop) {
    let (id, stop) = told.state.open_stop().expect("a stop");
    (id, stop.clone())
}

#[test]
fn a_trip_goes_from_stop_to_stop_and_its_purse_follows() {
    let mut told = Told::begun();
    assert_eq!(kinds(&told.tell(&start(80_00))), ["trip", "cash"]);
    told.refuses(&start(0), Refusal::TripOpen);
    told.tell(&next("Alder Lane driveway sale"));
    let first = here(&told);
    told.tell(&Command::Buy(buy("Lamp", 26_00)));
    let other = Purchase {
        by: Paying::Other,
        ..buy("Bookends", 4_50)
    };
    let bought = told.tell(&Command::Buy(other));
    assert_eq!(bought[0].set["stop"], first.0.to_string());
    assert_eq!(left(&told), 54_00);
    told.tell(&cash(Moved::OtherSpent, 3_00));
    told.tell(&cash(Moved::Sold, 1_00));
    assert_eq!(left(&told), 52_00);
    let counted = told.tell(&TripCommand::CountCash(Money::new(51_50)).into());
    assert_eq!(counted[0].set["amount"], -50);
    assert_eq!(left(&told), 51_50);
    told.now.0 += 3_600_000;
    assert_eq!(kinds(&told.tell(&next(""))), ["stop", "stop"]);
    let left_at = told.state.stop(first.0).expect("a stop").left;
    assert_eq!(
        (left_at, here(&told).1.arrived),
        (Some(told.now), Some(told.now))
    );
    told.refuses(&end(Some(81_203)), Refusal::OdometerBack);
    assert_eq!(kinds(&told.tell(&end(Some(81_228)))), ["trip", "stop"]);
    assert_eq!(told.state.open_stop(), None);
    told.refuses(&end(None), Refusal::NoTrip);
    // Cash is counted at home, too.
    told.tell(&TripCommand::CountCash(Money::new(50_00)).into());
    assert_eq!(left(&told), 50_00);
    // A purchase at home is on no trip.
    assert!(
        !told.tell(&Command::Buy(buy("Jug", 9_00)))[0]
            .set
            .contains_key("stop")
    );
    assert_eq!(left(&told), 50_00);
}

#[test]
fn a_purchase_between_two_stops_makes_one_so_that_the_purse_knows() {
    let mut told = Told::begun();
    told.tell(&start(20_00));
    assert_eq!(
        kinds(&told.tell(&Command::Buy(buy("Lamp", 6_00)))),
        ["lot", "thing", "stop"]
    );
    assert_eq!(left(&told), 14_00);
    assert_eq!(
        kinds(&told.tell(&Command::Buy(buy("Jug", 1_00)))),
        ["lot", "thing"]
    );
    assert_eq!(left(&told), 13_00);
}

#[test]
fn a_stop_is_planned_and_then_visited() {
    let mut told = Told::begun();
    let plan = |name: &str| {
        Command::from(TripCommand::PlanStop {
            name: name.to_owned(),
        })
    };
    assert_eq!(kinds(&told.tell(&plan("Church hall"))), ["trip", "stop"]);
    let second = told.tell(&plan("Mill Road"));
    assert_eq!(
        (kinds(&second), &second[0].set["planned"]),
        (vec!["stop"], &2.into())
    );
    told.refuses(&plan(" "), Refusal::NoName);
    let planned = told.state.planned_trip().expect("a plan").0;
    let go = |stop| {
        Command::from(TripCommand::NextStop {
            stop: Some(stop),
            name: String::new(),
        })
    };
    let mill = StopId(second[0].id);
    // The first stop starts the trip.
    told.tell(&go(mill));
    assert_eq!(told.state.open_trip().map(|(id, _)| id), Some(planned));
    assert_eq!(here(&told).1.name.as_deref(), Some("Mill Road"));
    told.refuses(&go(mill), Refusal::BeenThere);
    told.refuses(&go(StopId(Uuid::max())), Refusal::NoStop);
    let names: Vec<_> = told
        .state
        .stops_of(planned)
        .iter()
        .map(|(_, stop)| stop.name.clone().expect("a name"))
        .collect();
    assert_eq!(names, ["Mill Road", "Church hall"]);
}

#[test]
fn stops_and_trips_are_held_against_their_limits() {
    let mut told = Told::begun();
    told.refuses(&cash(Moved::Sold, 1), Refusal::NoTrip);
    told.tell(&start(20_00));
    told.tell(&next("Church hall"));
    let (stop, trip) = (here(&told).0, told.state.open_trip().expect("a trip").0);
    let save = |id, setup| Command::from(TripCommand::SaveStop { id, setup });
    let at = |minutes: u64| Some(At(NOON.0 + minutes * 60_000, 0));
    let setup = StopSetup {
        name: "Church hall".to_owned(),
        arrived: at(10),
        left: at(40),
        manner: Some(Manner::HalfFrom(780)),
        note: "good for lamps".to_owned(),
        premium: None,
    };
    told.tell(&save(stop, setup.clone()));
    told.refuses(&save(stop, setup.clone()), Refusal::NoChange);
    let with = |change: &dyn Fn(&mut StopSetup)| {
        let mut setup = setup.clone();
        change(&mut setup);
        save(stop, setup)
    };
    told.refuses(&with(&|stop| stop.left = at(9)), Refusal::EndsTooSoon);
    told.refuses(&with(&|stop| stop.arrived = None), Refusal::EndsTooSoon);
    told.refuses(
        &with(&|stop| stop.left = Some(At(u64::MAX, 0))),
        Refusal::ClockOff,
    );
    told.refuses(
        &with(&|stop| stop.manner = Some(Manner::HalfFrom(1_440))),
        Refusal::NoSuchTime,
    );
    told.refuses(
        &with(&|stop| stop.note = "x".repeat(501)),
        Refusal::TextTooLong { limit: 500 },
    );
    told.refuses(&save(StopId(Uuid::max()), setup.clone()), Refusal::NoStop);

    let save = |id, setup| Command::from(TripCommand::SaveTrip { id, setup });
    let ended = TripSetup {
        started: at(20),
        ended: at(10),
        ..TripSetup::default()
    };
    told.refuses(&save(trip, ended), Refusal::EndsTooSoon);
    let back = TripSetup {
        odometer_out: Some(2),
        odometer_back: Some(1),
        ..TripSetup::default()
    };
    told.refuses(&save(trip, back.clone()), Refusal::OdometerBack);
    told.refuses(
        &save(TripId(Uuid::max()), TripSetup::default()),
        Refusal::NoTrip,
    );
    told.tell(&end(None));
    told.tell(&start(0));
    let open = TripSetup {
        started: at(0),
        ..TripSetup::default()
    };
    told.refuses(&save(trip, open), Refusal::TripOpen);
}
