//! What a step about trips, lots and things has done: is it in the book as it was asked for?

use super::device::{Device, pick};
use super::haul_steps::HaulStep;
use haulwren_core::book::{Lot, State, Thing};
use haulwren_core::change::Change;
use haulwren_core::id::{StopId, ThingId, TripId};
use haulwren_core::kind::RecordKind;
use haulwren_core::ledger::Moved;
use haulwren_core::money::Money;
use haulwren_core::worth::Sells;

/// The middle one of three prices.
fn middle(mut prices: [Money; 3]) -> Money {
    prices.sort_unstable();
    prices[1]
}

/// Is it in the book as it was asked for?
#[allow(clippy::too_many_lines)] // One arm for each step.
pub fn haul_holds(device: &Device, of: &HaulStep, changes: &[Change]) -> bool {
    let (state, now) = (&device.state, device.now);
    let made = |kind: &str| {
        changes
            .iter()
            .find(|one| one.kind.name() == kind)
            .map(|one| one.id)
    };
    let lot = || -> &Lot { &state.tables.lots[&made("lot").unwrap()].value };
    let thing = || -> &Thing { &state.tables.things[&made("thing").unwrap()].value };
    let things = changes.iter().filter(|one| one.kind == RecordKind::Thing);
    match of {
        HaulStep::Start(cash, odometer) => {
            let (id, trip) = state.open_trip().unwrap();
            Some(id.0) == made("trip")
                && trip.started == Some(now)
                && (odometer.is_none() || trip.odometer_out == *odometer)
                && made("cash").is_some() != cash.is_zero()
        }
        HaulStep::End(_) => {
            let trip = state.trip(TripId(made("trip").unwrap())).unwrap();
            trip.ended.is_some() && state.open_stop().is_none()
        }
        HaulStep::Next(_, name) => {
            let arrived =
                |change: &&Change| change.set.get("arrived").is_some_and(|at| !at.is_null());
            let id = changes.iter().find(arrived).unwrap().id;
            let stop = state.stop(StopId(id)).unwrap();
            stop.arrived == Some(now)
                && stop.name.as_deref() == Some(name.trim())
                && stop.trip == state.open_trip().map(|(trip, _)| trip)
        }
        HaulStep::Plan(name) => {
            let stop = state.stop(StopId(made("stop").unwrap())).unwrap();
            stop.name.as_deref() == Some(name.trim()) && stop.planned.is_some()
        }
        HaulStep::SaveStop(_, name, manner, _) => {
            let stop = state.stop(StopId(made("stop").unwrap())).unwrap();
            stop.name.as_deref() == Some(name.trim()) && stop.manner == Some(*manner)
        }
        HaulStep::Cash(Moved::Counted, counted) => state.cash_left() == Some(*counted),
        HaulStep::Cash(what, amount) => {
            let cash = &state.tables.cash[&made("cash").unwrap()].value;
            (cash.what, cash.amount) == (Some(*what), Some(what.signed(*amount)))
        }
        HaulStep::Buy(purchase) => {
            lot().paid == Some(purchase.paid)
                && lot().by.unwrap_or_default() == purchase.by
                && lot().method.unwrap_or_default() == purchase.method
                && lot().stop == state.open_stop().map(|(stop, _)| stop)
                && things.count() == purchase.things.len()
        }
        HaulStep::Unsorted(count, paid, by) => {
            (lot().unsorted, lot().paid) == (Some(*count), Some(*paid))
                && lot().by.unwrap_or_default() == *by
        }
        HaulStep::Sort(_, sorted) => things.count() == sorted.len() && lot().unsorted != Some(0),
        HaulStep::Left(_, count) => lot().unsorted.unwrap_or(0) == *count,
        HaulStep::Method(_, method) => lot().method == Some(*method),
        HaulStep::Paid(_, paid) => lot().paid == Some(*paid),
        HaulStep::Extras(_, extras) => lot().extras.unwrap_or_default() == *extras,
        HaulStep::By(_, by) => lot().by.unwrap_or_default() == *by,
        HaulStep::At(_, which) => {
            let stop = which.map(|which| StopId(pick(&state.tables.stops, which)));
            lot().stop == stop
        }
        HaulStep::Regroup(..) => {
            let first = thing().lot.unwrap();
            state.lot(first).is_some_and(|lot| lot.paid.is_some())
        }
        HaulStep::Fix(_, share) => thing().share == *share,
        HaulStep::Keep(_, kept) => thing().kept.unwrap_or(false) == *kept,
        HaulStep::Return(_, got_back) => {
            let is_new = |change: &&Change| changes.iter().all(|new| new.key != change.key);
            let earlier: Vec<Change> = device.log.iter().filter(is_new).cloned().collect();
            let earlier = State::from_changes(state.me, &earlier);
            let id = made("thing").unwrap();
            // Of a thing that cost nothing back nothing changes about its lot.
            let of = earlier.tables.things[&id].value.lot.unwrap().0;
            let paid = earlier.tables.lots[&of].value.paid.unwrap();
            let now = state.tables.lots[&of].value.paid;
            state.thing(ThingId(id)).is_none() && now == Some(paid.minus(*got_back))
        }
        HaulStep::Mark(_, maker, pieces) => {
            thing().maker.as_deref() == Some(maker.trim())
                && thing().pieces == pieces.filter(|pieces| *pieces > 1)
        }
        HaulStep::Edit(_, kind, likely) => {
            let sells = thing().sells.map(haulwren_core::worth::Sells::likely);
            (!kind || thing().kind == Some(state.kinds()[0].id))
                && (likely.is_none() || sells == *likely)
        }
        HaulStep::Facts(_, kind, _, [postage, packing]) => {
            (thing().postage, thing().packing) == (*postage, *packing)
                && thing().kind.is_some() == kind.is_some()
        }
        HaulStep::Sells(_, prices) => thing().sells.map(Sells::likely) == prices.map(middle),
        HaulStep::Work(_, cost, _) => {
            let work = &state.tables.works[&made("work").unwrap()].value;
            work.cost == Some(*cost) && made("worked").is_some()
        }
        HaulStep::Photo(which, blob) => {
            let photo = &state.tables.photos[&made("photo").unwrap()].value;
            let thing = ThingId(pick(&state.tables.things, *which));
            photo.blob.as_deref() == Some(format!("{blob:02x}").repeat(32).as_str())
                && photo.thing == Some(thing)
                && state.photos_of(thing).any(|(_, one)| one == photo)
        }
        HaulStep::RemoveStop(_)
        | HaulStep::TakeCash(_)
        | HaulStep::RemoveWork(_)
        | HaulStep::RemovePhoto(_) => changes[0].set["gone"] == true,
    }
}
