//! Trips: one with its stops in order, and the list of all of them.

use super::haul::{HaulSums, StopHead, day_of, stops};
use crate::book::{Sales, State, Trip};
use crate::day::Day;
use crate::id::{CashId, StopId, TripId};
use crate::ledger::{Moved, Purse};
use crate::measure::Distance;
use crate::money::{Currency, Money};
use crate::stamp::At;

/// One trip.
#[derive(Clone, Debug, PartialEq)]
pub struct TripView {
    /// The book's currency.
    pub currency: Currency,
    /// Which.
    pub id: TripId,
    /// The trip as it stands: name, times, odometer, note.
    pub trip: Trip,
    /// On which day.
    pub day: Option<Day>,
    /// How far was driven: as said, else by the odometer.
    pub driven: Option<Distance>,
    /// Its stops: those visited in order, then those planned.
    pub stops: Vec<StopRow>,
    /// Its purse.
    pub purse: Purse,
    /// The movements and counts of its purse, in order.
    pub cash: Vec<CashRow>,
    /// What was bought on it.
    pub sums: HaulSums,
}

/// A stop of a trip.
#[derive(Clone, Debug, PartialEq)]
pub struct StopRow {
    /// The stop.
    pub stop: StopHead,
    /// What was bought at it.
    pub sums: HaulSums,
}

/// A movement or a count of the purse.
#[derive(Clone, Debug, PartialEq)]
pub struct CashRow {
    /// Which.
    pub id: CashId,
    /// What moved it; none when this version does not know.
    pub what: Option<Moved>,
    /// By how much, signed as it moves the purse.
    pub amount: Money,
    /// What was counted.
    pub counted: Option<Money>,
    /// Where.
    pub stop: Option<StopId>,
    /// When.
    pub at: Option<At>,
    /// What for; may be empty.
    pub note: String,
}

/// A trip in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct TripRow {
    /// Which.
    pub id: TripId,
    /// Its name; may be empty.
    pub name: String,
    /// On which day.
    pub day: Option<Day>,
    /// When it started; none while it is only planned.
    pub started: Option<At>,
    /// Whether it is under way.
    pub open: bool,
    /// How many stops were visited.
    pub stops: usize,
    /// How far was driven.
    pub driven: Option<Distance>,
    /// What was bought on it.
    pub sums: HaulSums,
}

/// Works one trip out. `None` when it is not there.
#[must_use]
pub fn trip(state: &State, id: TripId) -> Option<TripView> {
    let currency = state.currency()?;
    let known = state.trip(id)?;
    let (lots, work) = (state.lots(), state.work_costs());
    let sales = Sales::of(state);
    let mut sums = HaulSums::default();
    let mut rows: Vec<StopRow> = Vec::new();
    for stop in stops(state, id) {
        let mut at_stop = HaulSums::default();
        for lot in lots.iter().filter(|lot| lot.lot.stop == Some(stop.id)) {
            at_stop.add(&HaulSums::of(&sales, lot, &work));
        }
        sums.add(&at_stop);
        rows.push(StopRow {
            stop,
            sums: at_stop,
        });
    }
    let mut cash = Vec::new();
    for (id, entry) in state.cash_of(id) {
        cash.push(CashRow {
            id,
            what: entry.what,
            amount: entry.amount.unwrap_or_default(),
            counted: entry.counted,
            stop: entry.stop,
            at: entry.at,
            note: entry.note.clone().unwrap_or_default(),
        });
    }
    Some(TripView {
        currency,
        id,
        trip: known.clone(),
        day: day_of(known),
        driven: driven(state, known),
        stops: rows,
        purse: state.purse(id),
        cash,
        sums,
    })
}

/// All trips: planned ones first, then the one under way, then the past ones, newest first.
#[must_use]
pub fn trips(state: &State) -> Vec<TripRow> {
    let (lots, work) = (state.lots(), state.work_costs());
    let sales = Sales::of(state);
    let mut rows: Vec<TripRow> = Vec::new();
    for (id, known) in state.trips() {
        let mut row = TripRow {
            id,
            name: known.name.clone().unwrap_or_default(),
            day: day_of(known),
            started: known.started,
            open: known.started.is_some() && known.ended.is_none(),
            stops: 0,
            driven: driven(state, known),
            sums: HaulSums::default(),
        };
        let stops = state.stops_of(id);
        row.stops = stops
            .iter()
            .filter(|(_, stop)| stop.arrived.is_some())
            .count();
        for lot in lots.iter().filter(|lot| state.trip_of(lot.lot) == Some(id)) {
            row.sums.add(&HaulSums::of(&sales, lot, &work));
        }
        rows.push(row);
    }
    rows.sort_unstable_by_key(|row| {
        let started = row.started.map_or(u64::MAX, |At(ms, _)| ms);
        std::cmp::Reverse((row.started.is_none(), row.open, started, row.id))
    });
    rows
}

/// How far a trip was driven: as the trader says, else by the odometer.
fn driven(state: &State, trip: &Trip) -> Option<Distance> {
    trip.distance.or_else(|| {
        let driven = trip.odometer_back?.checked_sub(trip.odometer_out?)?;
        Distance::driven(driven, state.distance_unit())
    })
}
