//! Haul: the trip, its purse, and what was bought, newest first, and what it comes to.

mod groups;
mod head;
mod sums;

#[cfg(test)]
mod tests;

pub use groups::{DayGroups, Group, LotGroup, LotRow, one_lot};
pub use head::{Here, StopHead, TripHead, here};
pub use sums::HaulSums;

pub(in crate::view) use head::stops;

use crate::book::{Expected, Passed, Sales, SharedLot, State, Trip};
use crate::day::Day;
use crate::id::{LotId, StopId, ThingId, TripId};
use crate::ledger::Paying;
use crate::money::{Currency, Money};
use crate::stamp::At;
use crate::worth::Sells;
use groups::groups;
use litemap::LiteMap;

/// What Haul shows.
#[derive(Clone, Debug, PartialEq)]
pub struct HaulView {
    /// The book's currency.
    pub currency: Currency,
    /// What all of it comes to.
    pub sums: HaulSums,
    /// The things, newest first.
    pub rows: Vec<HaulRow>,
    /// Things passed by, newest first.
    pub passed: Vec<PassedRow>,
    /// The trip under way, else the last one while nothing was bought since.
    pub trip: Option<TripHead>,
    /// What was bought on that trip.
    pub groups: Vec<Group>,
    /// Everything else by the days on which it was bought, newest first. Last come things of which no lot is known.
    pub days: Vec<DayGroups>,
}

/// A thing that was passed by.
#[derive(Clone, Debug, PartialEq)]
pub struct PassedRow {
    /// Its name, or its kind's; empty when neither was said.
    pub name: String,
    /// What the seller wanted.
    pub ask: Option<Money>,
    /// The verdict.
    pub expected: Option<Expected>,
}

/// One thing.
#[derive(Clone, Debug, PartialEq)]
pub struct HaulRow {
    /// Which.
    pub id: ThingId,
    /// Its lot.
    pub lot: Option<LotId>,
    /// Its name; empty while it has none.
    pub name: String,
    /// What was paid for it: its share of its lot.
    pub paid: Money,
    /// What the work put into it cost.
    pub work: Money,
    /// How it was paid for.
    pub by: Paying,
    /// Whether the trader keeps it for their own use.
    pub kept: bool,
    /// Of how many pieces it is, when of more than one.
    pub pieces: Option<u16>,
    /// What it sells for.
    pub sells: Option<Sells>,
    /// The verdict as it stood when it was bought.
    pub expected: Option<Expected>,
    /// When it was bought.
    pub bought: Option<At>,
    /// Where.
    pub stop: Option<StopId>,
    /// Whether something about it waits for the trader's choice.
    pub disputed: bool,
}

impl HaulView {
    /// What was bought at a stop.
    pub fn bought_at(&self, stop: StopId) -> impl Iterator<Item = &Group> {
        let days = self.days.iter().flat_map(|day| &day.groups);
        let all = self.groups.iter().chain(days);
        all.filter(move |group| group.stop() == Some(stop))
    }
}

/// Works Haul out. `None` before the book has begun.
#[must_use]
pub fn haul(state: &State) -> Option<HaulView> {
    let currency = state.currency()?;
    let (lots, work) = (newest_first(state), state.work_costs());
    let sales = Sales::of(state);
    let mut sums = HaulSums::default();
    let mut shares: Vec<(ThingId, Money)> = Vec::new();
    for lot in &lots {
        let paid = lot.split.shares.iter().map(|share| share.amount);
        shares.extend(lot.things.iter().copied().zip(paid));
    }
    shares.sort_unstable_by_key(|(thing, _)| *thing);
    let mut rows: Vec<HaulRow> = Vec::with_capacity(shares.len());
    let mut strays: Vec<Group> = Vec::new();
    for (id, _) in state.things().rev() {
        let place = shares.binary_search_by_key(&id, |(thing, _)| *thing);
        let paid = place.map_or(Money::ZERO, |place| shares[place].1);
        let row = row(state, id, paid, &work);
        if place.is_err() {
            strays.extend(row.clone().map(Group::Thing));
        }
        rows.extend(row);
    }
    let mut of_days = ByDay::default();
    let mut of_trip: Vec<&SharedLot<'_>> = Vec::new();
    let trip = current_trip(state, &lots);
    let mut head = trip.map(|(id, trip)| head_of(state, id, trip));
    for lot in &lots {
        let of_lot = HaulSums::of(&sales, lot, &work);
        sums.add(&of_lot);
        match &mut head {
            Some(head) if state.trip_of(lot.lot) == Some(head.id) => {
                head.sums.add(&of_lot);
                of_trip.push(lot);
            }
            _ => of_days.add(lot),
        }
    }
    let mut open = true;
    let groups = groups(state, &of_trip, &work, &mut open);
    let mut days = of_days.groups(state, &work, &mut open);
    if !strays.is_empty() {
        days.push(DayGroups {
            day: None,
            groups: strays,
        });
    }
    Some(HaulView {
        currency,
        sums,
        rows,
        passed: state
            .passed_by()
            .rev()
            .map(|thing| passed(state, thing))
            .collect(),
        trip: head,
        groups,
        days,
    })
}

/// The lots, by when they were bought, the last first.
fn newest_first(state: &State) -> Vec<SharedLot<'_>> {
    let mut lots = state.lots();
    lots.sort_unstable_by_key(|lot| std::cmp::Reverse((bought_ms(lot), lot.id)));
    lots
}

fn bought_ms(lot: &SharedLot<'_>) -> u64 {
    lot.lot.bought.map_or(0, |At(ms, _)| ms)
}

/// The trip under way; else the last one, unless something was bought elsewhere after it began.
fn current_trip<'a>(state: &'a State, lots: &[SharedLot<'_>]) -> Option<(TripId, &'a Trip)> {
    state.open_trip().or_else(|| {
        let (id, trip) = state.last_trip()?;
        let started = trip.started.map_or(0, |At(ms, _)| ms);
        let is_since = |lot: &SharedLot<'_>| bought_ms(lot) > started;
        let newest = lots.first().filter(|lot| is_since(lot));
        let is_on_it = newest.is_none_or(|lot| state.trip_of(lot.lot) == Some(id));
        is_on_it.then_some((id, trip))
    })
}

fn head_of(state: &State, id: TripId, trip: &Trip) -> TripHead {
    TripHead {
        id,
        name: trip.name.clone().unwrap_or_default(),
        day: day_of(trip),
        open: trip.ended.is_none(),
        stop: head::current(state, id),
        purse: state.purse(id),
        sums: HaulSums::default(),
    }
}

/// The day of a trip: the one that was said, else the one on which it started.
pub(in crate::view) fn day_of(trip: &Trip) -> Option<Day> {
    trip.day.or_else(|| trip.started.and_then(At::day))
}

/// Lots by the days on which they were bought.
#[derive(Default)]
struct ByDay<'a> {
    days: Vec<(Option<Day>, Vec<&'a SharedLot<'a>>)>,
}

impl<'a> ByDay<'a> {
    /// Takes in a lot; they come newest first.
    fn add(&mut self, lot: &'a SharedLot<'a>) {
        let day = lot.lot.bought.and_then(At::day);
        // Clocks of two zones may go to a day again that was left already.
        match self.days.iter_mut().rev().find(|known| known.0 == day) {
            Some((_, lots)) => lots.push(lot),
            None => self.days.push((day, vec![lot])),
        }
    }

    fn groups(
        &self,
        state: &State,
        work: &LiteMap<ThingId, Money>,
        open: &mut bool,
    ) -> Vec<DayGroups> {
        let mut days = Vec::with_capacity(self.days.len());
        for (day, lots) in &self.days {
            let (day, groups) = (*day, groups(state, lots, work, open));
            days.push(DayGroups { day, groups });
        }
        days
    }
}

fn passed(state: &State, thing: &Passed) -> PassedRow {
    let kind = || Some(state.kind(thing.kind?)?.name);
    PassedRow {
        name: thing.name.clone().or_else(kind).unwrap_or_default(),
        ask: thing.ask,
        expected: thing.expected.clone(),
    }
}

fn row(state: &State, id: ThingId, paid: Money, work: &LiteMap<ThingId, Money>) -> Option<HaulRow> {
    let thing = state.thing(id)?;
    let lot = thing.lot.and_then(|id| state.tables.lots.get(&id.0));
    let lot = lot.map(|entry| &entry.value);
    let disputes = state
        .tables
        .things
        .get(&id.0)
        .is_some_and(|entry| !entry.disputes.is_empty());
    let kind = || Some(state.kind(thing.kind?)?.name);
    Some(HaulRow {
        id,
        lot: thing.lot,
        name: thing.name.clone().or_else(kind).unwrap_or_default(),
        paid,
        work: work.get(&id).copied().unwrap_or_default(),
        by: lot.and_then(|lot| lot.by).unwrap_or_default(),
        kept: thing.kept == Some(true),
        pieces: thing.pieces.filter(|pieces| *pieces > 1),
        sells: thing.sells,
        expected: thing.expected.clone(),
        bought: lot.and_then(|lot| lot.bought),
        stop: lot.and_then(|lot| lot.stop),
        disputed: disputes,
    })
}
