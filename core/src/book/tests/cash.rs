//! The purse, what keeps a stop, and how far sellers come down.

use super::trips::{cash, here, left, next, start};
use super::*;
use crate::id::CashId;
use crate::ledger::Moved;
use crate::measure::DistanceUnit;
use crate::trip::Manner;

#[test]
fn what_stands_on_a_stop_keeps_it_and_cash_is_taken_out() {
    let mut told = Told::begun();
    told.tell(&start(20_00));
    told.tell(&next("Church hall"));
    let stop = here(&told).0;
    let spent = told.tell(&cash(Moved::OtherSpent, 2_00));
    let remove = Command::from(TripCommand::RemoveStop(stop));
    told.refuses(&remove, Refusal::StopInUse);
    let take_out = Command::from(TripCommand::RemoveCash(CashId(spent[0].id)));
    told.tell(&take_out);
    told.refuses(&take_out, Refusal::NoEntry);
    assert_eq!(left(&told), 20_00);
    told.tell(&remove);
    told.refuses(&remove, Refusal::NoStop);
    told.refuses(&cash(Moved::Sold, 0), Refusal::NoAmount);
    told.refuses(&cash(Moved::Sold, -1), Refusal::Negative);
    told.refuses(
        &TripCommand::CountCash(Money::new(-1)).into(),
        Refusal::Negative,
    );
    // A count that is moved is a count.
    told.tell(&cash(Moved::Counted, 19_00));
    assert_eq!(left(&told), 19_00);
    let unit = Command::from(TripCommand::SetDistanceUnit(DistanceUnit::Kilometre));
    told.tell(&unit);
    told.refuses(&unit, Refusal::NoChange);
    assert_eq!(told.state.distance_unit(), DistanceUnit::Kilometre);
}

#[test]
fn the_reach_is_that_of_the_stop() {
    let mut told = Told::begun();
    let usd = told.state.currency().expect("a currency");
    assert_eq!(told.state.reach(NOON, usd), Rate::percent(50));
    told.tell(&next("Church hall"));
    let setup = StopSetup {
        arrived: Some(NOON),
        manner: Some(Manner::Fixed),
        ..StopSetup::default()
    };
    let id = here(&told).0;
    told.tell(&TripCommand::SaveStop { id, setup }.into());
    assert_eq!(told.state.reach(NOON, usd), Rate::ZERO);
}
