//! A trip with its stops, and what was bought off it.

use super::*;
use crate::book::StopSetup;
use crate::ledger::Moved;
use crate::trip::Manner;
use crate::view::kit::today;
use crate::view::{trip, trips};

#[test]
fn a_trip_shows_its_stops_with_their_times_and_sums() {
    let mut kit = of_the_picture();
    let next = |name: &str| TripCommand::NextStop {
        stop: None,
        name: name.to_owned(),
    };
    kit.tell(&next("").into());
    let cash = TripCommand::MoveCash {
        what: Moved::OtherSpent,
        amount: Money::new(2_00),
        note: "parking".to_owned(),
    };
    kit.tell(&cash.into());
    assert_eq!(
        here(&kit.state).map(|here| here.cash_left),
        Some(Money::new(52_00))
    );
    let end = TripCommand::EndTrip {
        odometer: Some(123),
        distance: None,
    };
    kit.tell(&end.into());
    assert_eq!(here(&kit.state), None);
    let (id, _) = kit.state.last_trip().expect("a trip");
    let view = trip(&kit.state, id).expect("a trip");
    let titles: Vec<String> = view.stops.iter().map(|row| row.stop.title()).collect();
    let minutes = today_minutes();
    let second = format!("Stop 2, {}:{:02}", minutes / 60, minutes % 60);
    assert_eq!(titles, ["Alder Lane driveway sale".to_owned(), second]);
    let things: Vec<usize> = view.stops.iter().map(|row| row.sums.things).collect();
    assert_eq!((things, view.sums.spent.minor()), (vec![18, 0], 30_50));
    assert_eq!(
        view.driven.map(|driven| driven.to_string()).as_deref(),
        Some("23 mi")
    );
    let mut cash: Vec<(i64, &str)> = Vec::new();
    for row in &view.cash {
        cash.push((row.amount.minor(), row.note.as_str()));
    }
    cash.sort_unstable();
    assert_eq!(cash, [(-2_00, "parking"), (80_00, "")]);
    let list = trips(&kit.state);
    assert_eq!((list.len(), list[0].stops, list[0].open), (1, 2, false));
    assert_eq!(list[0].sums, view.sums);
    // Home again: still the trip, until something is bought elsewhere.
    assert!(haul(&kit.state).expect("a view").trip.is_some());
    assert_eq!(view.purse.left(), Money::new(52_00));
}

fn today_minutes() -> u16 {
    crate::view::kit::NOON.minute_of_day()
}

#[test]
fn what_is_bought_off_the_trip_stands_under_its_day() {
    let mut kit = marlpost();
    let jug = thing(&kit, "jug", "16", "1");
    buy(&mut kit, 1_00, Paying::Cash, vec![jug]);
    let view = haul(&kit.state).expect("a view");
    assert!(view.trip.is_none() && view.groups.is_empty());
    assert_eq!((view.days.len(), view.days[0].day), (1, Some(today())));
    let next = TripCommand::NextStop {
        stop: None,
        name: "Church hall".to_owned(),
    };
    kit.tell(&next.into());
    let (id, _) = kit.state.open_stop().expect("a stop");
    let setup = StopSetup {
        arrived: Some(crate::view::kit::NOON),
        manner: Some(Manner::Fixed),
        ..StopSetup::default()
    };
    kit.tell(&TripCommand::SaveStop { id, setup }.into());
    let view = haul(&kit.state).expect("a view");
    let stop = view.trip.and_then(|head| head.stop).expect("a stop");
    assert_eq!(stop.manner, Manner::Fixed);
    assert!(view.groups.is_empty() && view.days.len() == 1);
}
