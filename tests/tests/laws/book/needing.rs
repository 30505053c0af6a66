//! The attention list: it names what is wrong by the bare records, all of it and nothing else, and its cures cure.

use super::device::Device;
use super::program::programs;
use super::replicas::{moves, play, settle};
use haulwren_core::book::{Concern, State};
use haulwren_core::lot::Method;
use haulwren_core::view::{Cure, attention};
use proptest::prelude::*;
use std::collections::BTreeSet;
use uuid::Uuid;

/// What is wrong by the bare records, from the words of the issue, as sorted words.
fn wrong(state: &State) -> BTreeSet<String> {
    let tables = &state.tables;
    let mut found = BTreeSet::new();
    let things = || tables.things.iter().filter(|(_, thing)| !thing.value.gone);
    let mates = |lot: &Uuid| {
        things()
            .filter(|(_, thing)| thing.value.lot.is_some_and(|of| of.0 == *lot))
            .count()
    };
    let mut at: BTreeSet<Uuid> = BTreeSet::new();
    for (id, lot) in tables.lots.iter() {
        let counts = !lot.value.gone || mates(id) > 0;
        if counts {
            at.extend(lot.value.stop.map(|stop| stop.0));
        }
        if lot.value.gone && mates(id) > 0 {
            found.insert(format!("lot gone {id}"));
        }
    }
    let mut on: BTreeSet<Uuid> = at
        .iter()
        .filter_map(|stop| tables.stops.get(stop)?.value.trip.map(|trip| trip.0))
        .collect();
    for (_, cash) in tables.cash.iter().filter(|(_, cash)| !cash.value.gone) {
        at.extend(cash.value.stop.map(|stop| stop.0));
        on.extend(cash.value.trip.map(|trip| trip.0));
    }
    for stop in at
        .iter()
        .filter(|stop| tables.stops.get(stop).is_some_and(|stop| stop.value.gone))
    {
        found.insert(format!("stop gone {stop}"));
    }
    for trip in on
        .iter()
        .filter(|trip| tables.trips.get(trip).is_some_and(|trip| trip.value.gone))
    {
        found.insert(format!("trip gone {trip}"));
    }
    for (id, work) in tables.works.iter().filter(|(_, work)| !work.value.gone) {
        let mut links = tables.worked.iter().filter(|(_, link)| !link.value.gone);
        let is_on = links.any(|(_, link)| {
            link.value.work.is_some_and(|work| work.0 == *id)
                && link
                    .value
                    .thing
                    .is_some_and(|thing| things().any(|(id, _)| *id == thing.0))
        });
        if !is_on && work.value.cost.is_some_and(|cost| !cost.is_zero()) {
            found.insert(format!("work {id}"));
        }
    }
    let open = tables.trips.iter().filter(|(_, trip)| {
        !trip.value.gone && trip.value.started.is_some() && trip.value.ended.is_none()
    });
    for _ in open.skip(1) {
        found.insert(format!("open {}", found.len()));
    }
    found
}

/// The same of the list.
fn listed(state: &State) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut open = 0;
    for concern in state.attention() {
        match concern {
            Concern::LotGone { lot, .. } => found.insert(format!("lot gone {lot}")),
            Concern::StopGone(stop) => found.insert(format!("stop gone {stop}")),
            Concern::TripGone(trip) => found.insert(format!("trip gone {trip}")),
            Concern::WorkOnNothing { work, .. } => found.insert(format!("work {work}")),
            Concern::StillOpen { .. } => {
                open += 1;
                true
            }
            _ => true,
        };
    }
    for _ in 0..open {
        found.insert(format!("open {}", found.len()));
    }
    found
}

/// Where the money of a lot with things does not go up in them, by its shares alone.
fn missing(state: &State) -> Vec<(Uuid, i64)> {
    let mut found = Vec::new();
    for lot in state.lots() {
        let on_things: i64 = lot
            .split
            .shares
            .iter()
            .map(|share| share.amount.minor())
            .sum();
        let on_rest = lot.split.on_unsorted().minor();
        let missing = lot.total.minor() - on_things - on_rest;
        if missing != 0 && !lot.things.is_empty() {
            found.push((lot.id.0, missing));
        }
    }
    found
}

fn is_right(state: &State) -> Result<(), TestCaseError> {
    prop_assert_eq!(listed(state), wrong(state));
    let not_shared = state
        .attention()
        .into_iter()
        .filter_map(|concern| match concern {
            Concern::NotShared { lot, missing } => Some((lot.0, missing.minor())),
            _ => None,
        });
    prop_assert_eq!(not_shared.collect::<Vec<_>>(), missing(state));
    let disputes = state
        .attention()
        .into_iter()
        .filter_map(|concern| match concern {
            Concern::Dispute { record, field } => Some((record, field)),
            _ => None,
        });
    prop_assert_eq!(disputes.collect::<Vec<_>>(), state.disputed());
    for of in attention(state) {
        prop_assert!(
            of.sentence.ends_with('.') && !of.key.is_empty(),
            "{}",
            of.sentence
        );
        let asks = matches!(of.cure, Cure::Settle(..));
        prop_assert_eq!(asks, matches!(of.concern, Concern::Dispute { .. }));
    }
    Ok(())
}

proptest! {
    #![proptest_config(crate::tries(96))]

    #[test]
    fn the_list_names_what_is_wrong_and_nothing_else(moves in moves(50)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        for device in &devices {
            is_right(&device.state)?;
        }
        settle(&mut devices);
        is_right(&devices[0].state)?;
        prop_assert_eq!(devices[0].state.attention(), devices[1].state.attention());
    }

    /// On one device, without undo and ways back, only shares by hand and work on what was taken out can be wrong.
    #[test]
    fn nothing_is_wrong_that_nobody_did(program in programs(40)) {
        use super::program::Step;
        let mut device = Device::begun();
        let plain = program.iter().filter(|timed| !matches!(timed.step, Step::Undo(_) | Step::Back(..)));
        for timed in plain {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        for concern in device.state.attention() {
            let is_own_doing = match &concern {
                Concern::NotShared { lot, .. } => {
                    let lot = device.state.shared_lot(*lot).unwrap();
                    lot.split.asked == Method::ByHand || lot.split.shares.iter().any(|share| share.fixed || share.kept)
                }
                Concern::WorkOnNothing { .. } => true,
                _ => false,
            };
            prop_assert!(is_own_doing, "{:?}", concern);
        }
    }

    /// One tap mends it, and the same is not wrong any more.
    #[test]
    fn each_cure_is_taken_and_mends_its_concern(moves in moves(50)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        settle(&mut devices);
        let device = &mut devices[0];
        for of in attention(&device.state) {
            let Cure::Tell(command) = of.cure else { continue };
            if !device.state.attention().contains(&of.concern) {
                // Another cure mended it, too.
                continue;
            }
            let edits = device.decide(&command);
            prop_assert!(edits.is_ok(), "{:?} by {:?}: {:?}", of.concern, command, edits);
            device.commit(edits.unwrap());
            prop_assert!(!device.state.attention().contains(&of.concern), "{:?}", of.concern);
        }
    }
}
