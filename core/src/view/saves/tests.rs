//! What saves about trips, lots and things are called.

use super::*;
use crate::book::{Bought, Command, LotCommand, Marks, Purchase, ThingCommand, TripCommand};
use crate::id::{LotId, StopId, ThingId, WorkId};
use crate::ledger::{Moved, Paying};
use crate::lot::Method;
use crate::money::Money;
use crate::view::kit::{Kit, today};

struct Said(Kit);

impl Said {
    /// Does it, and checks what it is called.
    fn check(&mut self, command: impl Into<Command>, sentence: &str) -> Vec<Change> {
        let changes = self.0.tell(&command.into());
        let done = describe(&self.0.state, &changes).expect("a save");
        assert_eq!(done.sentence, sentence);
        changes
    }
}

fn next(stop: Option<StopId>, name: &str) -> TripCommand {
    let name = name.to_owned();
    TripCommand::NextStop { stop, name }
}

fn cash(what: Moved, amount: i64) -> TripCommand {
    TripCommand::MoveCash {
        what,
        amount: Money::new(amount),
        note: String::new(),
    }
}

fn bought(name: &str) -> Bought {
    Bought {
        name: name.to_owned(),
        ..Bought::default()
    }
}

#[test]
fn trips_stops_and_the_purse_are_told() {
    let mut said = Said(Kit::begun());
    let plan = TripCommand::PlanStop {
        name: "Church hall".to_owned(),
    };
    let planned = StopId(said.check(plan, "Church hall planned")[1].id);
    let start = TripCommand::StartTrip {
        name: String::new(),
        took_out: Some(Money::new(80_00)),
        odometer: None,
    };
    said.check(start, "Trip started, 80.00");
    said.check(next(Some(planned), ""), "Arrived at Church hall");
    said.check(next(None, ""), "Arrived at the next stop");
    said.check(next(None, "Mill Road"), "Arrived at Mill Road");
    said.check(cash(Moved::OtherSpent, 3_00), "Cash spent, 3.00");
    said.check(cash(Moved::Sold, 1_00), "Sold for cash, 1.00");
    said.check(cash(Moved::TookOut, 20_00), "Cash taken along, 20.00");
    said.check(
        TripCommand::CountCash(Money::new(97_00)),
        "Cash counted, 97.00",
    );
    let (id, stop) = said.0.state.open_stop().expect("a stop");
    let setup = crate::book::StopSetup {
        name: "Mill Lane".to_owned(),
        arrived: stop.arrived,
        ..crate::book::StopSetup::default()
    };
    said.check(TripCommand::SaveStop { id, setup }, "Mill Lane changed");
    let end = TripCommand::EndTrip {
        odometer: None,
        distance: None,
    };
    said.check(end, "Trip ended");
    said.check(
        TripCommand::SetDistanceUnit(crate::measure::DistanceUnit::Kilometre),
        "Unit of distances chosen",
    );
}

#[test]
fn lots_are_told() {
    let mut said = Said(Kit::begun());
    let unsorted = LotCommand::BuyUnsorted {
        count: 3,
        paid: Money::new(10_00),
        by: Paying::Cash,
        name: String::new(),
    };
    let lot = LotId(said.check(unsorted, "3 things added, 10.00")[0].id);
    said.check(
        LotCommand::Sort {
            lot,
            things: vec![bought("jug")],
        },
        "jug sorted",
    );
    said.check(
        LotCommand::SetUnsorted { lot, count: 1 },
        "1 thing left to sort",
    );
    said.check(
        LotCommand::SetMethod {
            lot,
            method: Method::ByKeep,
        },
        "Lot split by keep",
    );
    // The shares that by hand starts from are said with it, and are not what was asked for.
    said.check(
        LotCommand::SetMethod {
            lot,
            method: Method::ByHand,
        },
        "Lot split by hand",
    );
    said.check(
        LotCommand::SetPaid {
            lot,
            paid: Money::new(8_00),
        },
        "Lot paid, 8.00",
    );
    said.check(
        LotCommand::SetExtras {
            lot,
            extras: Money::new(1_00),
        },
        "Extras of a lot, 1.00",
    );
    said.check(
        LotCommand::SetPaying {
            lot,
            by: Paying::Other,
        },
        "Lot paid in another way",
    );
    said.check(
        LotCommand::NameLot {
            lot,
            name: "Garage table".to_owned(),
        },
        "Garage table named",
    );
    said.check(
        LotCommand::SetUnsorted { lot, count: 0 },
        "0 things left to sort",
    );
}

#[test]
fn things_are_told() {
    let mut said = Said(Kit::begun());
    let both = Purchase {
        extras: Money::ZERO,
        paid: Money::new(6_00),
        things: vec![bought("jug"), bought("bowl")],
        method: Method::Evenly,
        by: Paying::Cash,
    };
    let changes = said.check(Command::Buy(both), "2 things bought, 6.00");
    let [jug, bowl] = [1, 2].map(|place: usize| ThingId(changes[place].id));
    let share = Some(Money::new(2_00));
    said.check(
        ThingCommand::FixShare { thing: jug, share },
        "Share of jug fixed, 2.00",
    );
    said.check(
        ThingCommand::FixShare {
            thing: jug,
            share: None,
        },
        "Share of jug freed",
    );
    said.check(
        ThingCommand::KeepForMyself {
            thing: jug,
            kept: true,
        },
        "jug kept for yourself",
    );
    said.check(
        ThingCommand::KeepForMyself {
            thing: jug,
            kept: false,
        },
        "jug no longer kept",
    );
    let marks = Marks {
        colour: "blue".to_owned(),
        ..Marks::default()
    };
    said.check(ThingCommand::Mark { thing: jug, marks }, "jug marked");
    let wash = ThingCommand::AddWork {
        name: "Wash".to_owned(),
        cost: Money::new(3_00),
        day: today(),
        things: vec![jug, bowl],
    };
    let wash = WorkId(said.check(wash, "Wash added, 3.00")[0].id);
    said.check(ThingCommand::RemoveWork(wash), "Wash taken out");
    let blob = "0".repeat(64);
    said.check(
        ThingCommand::AddPhoto { thing: jug, blob },
        "Picture of jug added",
    );
    let likely = Some(Money::new(9_00));
    let both = ThingCommand::EditMany {
        things: vec![jug, bowl],
        kind: None,
        likely,
    };
    said.check(both, "2 things changed");
    let lamp = Purchase::of_one(Money::new(1_00), bought("lamp"));
    let lamp = ThingId(said.check(Command::Buy(lamp), "lamp bought, 1.00")[1].id);
    let lot = said
        .0
        .state
        .thing(jug)
        .and_then(|jug| jug.lot)
        .expect("a lot");
    said.check(
        LotCommand::Regroup {
            things: vec![lamp],
            lot,
        },
        "lamp moved to another lot",
    );
    let got_back = Money::new(1_00);
    said.check(
        ThingCommand::ReturnToSeller {
            thing: lamp,
            got_back,
        },
        "lamp given back",
    );
    said.check(Command::TakeOut(bowl), "bowl taken out");
}
