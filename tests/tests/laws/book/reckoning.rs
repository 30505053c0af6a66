//! Where the money is: whatever is bought, edited, sorted, given back, undone and merged, every minor unit is on a thing, on what is to be
//! sorted, or said to be on neither; and the purse is the sum of its movements.

use super::device::Device;
use super::haul_steps::HaulStep;
use super::program::{Step, programs};
use super::replicas::{moves, play, settle};
use haulwren_core::book::{Lot, State};
use haulwren_core::ledger::Paying;
use haulwren_core::money::Money;
use haulwren_core::view::{Group, haul, trip};
use proptest::prelude::*;

/// The lots that count, by the bare records: those that are there, and those of which a thing is.
fn counting(state: &State) -> Vec<(uuid::Uuid, &Lot, usize)> {
    let things: Vec<_> = state.tables.things.values().collect();
    let mates = |id: &uuid::Uuid| {
        let there = things.iter().filter(|thing| !thing.value.gone);
        there
            .filter(|thing| thing.value.lot.is_some_and(|lot| lot.0 == *id))
            .count()
    };
    let lots = state
        .tables
        .lots
        .iter()
        .map(|(id, lot)| (*id, &lot.value, mates(id)));
    lots.filter(|(_, lot, mates)| !lot.gone || *mates > 0)
        .collect()
}

fn total(lot: &Lot) -> i64 {
    lot.paid.unwrap().minor() + lot.extras.unwrap_or_default().minor()
}

/// Checks all that has to add up in a book.
fn adds_up(state: &State) -> Result<(), TestCaseError> {
    let paid: i64 = counting(state).iter().map(|(_, lot, _)| total(lot)).sum();
    let works = state.tables.works.values().filter(|work| !work.value.gone);
    let work: i64 = works.map(|work| work.value.cost.unwrap().minor()).sum();
    let sum = state.reckoning();
    prop_assert_eq!((sum.paid.minor(), sum.work.minor()), (paid, work));
    let on_things: i64 = state.costs().iter().map(|(_, cost)| cost.minor()).sum();
    prop_assert_eq!(sum.on_things.minor(), on_things);
    let all = sum.on_things.plus(sum.on_unsorted).plus(sum.not_yet_shared);
    prop_assert_eq!(all.minor(), paid + work);
    for (_, cost) in state.costs().iter() {
        prop_assert!(!cost.is_negative());
    }
    Ok(())
}

fn purses_add_up(state: &State) -> Result<(), TestCaseError> {
    for (id, _) in state.trips() {
        let moved = state.tables.cash.values().filter(|cash| !cash.value.gone);
        let moved = moved.filter(|cash| cash.value.trip == Some(id));
        let moved: i64 = moved.map(|cash| cash.value.amount.unwrap().minor()).sum();
        let mut paid = [0, 0];
        for (_, lot, _) in counting(state) {
            let stop = lot.stop.and_then(|stop| state.tables.stops.get(&stop.0));
            if stop.is_some_and(|stop| stop.value.trip == Some(id)) {
                paid[usize::from(lot.by == Some(Paying::Other))] += total(lot);
            }
        }
        let purse = state.purse(id);
        prop_assert_eq!(purse.left().minor(), moved - paid[0]);
        prop_assert_eq!(
            (purse.spent_cash.minor(), purse.spent_other.minor()),
            (paid[0], paid[1])
        );
        let view = trip(state, id).unwrap();
        prop_assert_eq!(view.purse, purse);
        let haul = haul(state).unwrap();
        for stop in &view.stops {
            let at_stop = haul.bought_at(stop.stop.id).map(|group| match group {
                Group::Thing(row) => row.paid,
                Group::Lot(lot) | Group::Unsorted(lot) => lot.total,
            });
            prop_assert_eq!(at_stop.sum::<Money>(), stop.sums.spent);
        }
        // What was bought on the trip is what was bought at its stops, gone ones that are used included.
        prop_assert_eq!(view.sums.spent.minor(), paid[0] + paid[1]);
    }
    Ok(())
}

/// Nothing that was bought is missing on Haul, and nothing is there twice.
fn is_all_shown(state: &State) -> Result<(), TestCaseError> {
    let view = haul(state).unwrap();
    let mut shown = Vec::new();
    let of_days = view.days.iter().flat_map(|day| &day.groups);
    let (mut sum, mut unsorted) = (0, 0);
    for group in view.groups.iter().chain(of_days) {
        match group {
            Group::Thing(row) => {
                shown.push(row.id);
                sum += row.paid.minor();
            }
            Group::Lot(lot) | Group::Unsorted(lot) => {
                let shares: i64 = lot.rows.iter().map(|row| row.share.amount.minor()).sum();
                let on_none = lot.on_unsorted.plus(lot.not_yet_shared).minor();
                prop_assert_eq!(shares + on_none, lot.total.minor());
                shown.extend(lot.rows.iter().map(|row| row.row.id));
                sum += lot.total.minor();
                unsorted += lot.unsorted;
            }
        }
    }
    shown.sort_unstable();
    let there: Vec<_> = state.things().map(|(id, _)| id).collect();
    prop_assert_eq!(shown, there);
    prop_assert_eq!(sum, view.sums.spent.minor());
    let lots = counting(state).into_iter().filter(|(_, lot, _)| !lot.gone);
    let to_sort: usize = lots
        .map(|(_, lot, _)| usize::from(lot.unsorted.unwrap_or(0)))
        .sum();
    prop_assert_eq!(unsorted, to_sort);
    Ok(())
}

proptest! {
    #![proptest_config(crate::tries(192))]

    #[test]
    fn every_unit_of_money_has_its_place(program in programs(50)) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
            adds_up(&device.state)?;
        }
        purses_add_up(&device.state)?;
        is_all_shown(&device.state)?;
    }

    #[test]
    fn so_it_has_when_books_are_merged(moves in moves(50)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        settle(&mut devices);
        for device in &devices {
            adds_up(&device.state)?;
            purses_add_up(&device.state)?;
            is_all_shown(&device.state)?;
        }
    }

    /// What the purse holds goes down by what is paid in cash, and by nothing else that is bought.
    #[test]
    fn a_purchase_leaves_the_purse_lighter_by_its_price(program in programs(30), step in super::haul_steps::haul_steps()) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        let (paid, by) = match &step {
            HaulStep::Buy(purchase) => (purchase.paid, purchase.by),
            HaulStep::Unsorted(_, paid, by) => (*paid, *by),
            _ => return Ok(()),
        };
        let is_open = device.state.open_trip().is_some();
        let before = device.state.cash_left();
        let Ok(edits) = device.plan(&Step::Haul(step)) else { return Ok(()) };
        device.commit(edits);
        let leaves = is_open && by == Paying::Cash;
        let after = before.map(|before| if leaves { before.minus(paid) } else { before });
        prop_assert_eq!(device.state.cash_left(), after);
    }
}
