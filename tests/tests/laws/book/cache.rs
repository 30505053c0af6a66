//! What is kept in memory and in storage is what a fresh computation gives.

use super::device::Device;
use super::program::programs;
use super::replicas::{moves, play, settle};
use haulwren_core::book::State;
use haulwren_core::id::{CashId, KindId, LotId, PhotoId, StopId, ThingId, TripId};
use haulwren_core::lot::Method;
use haulwren_core::view::haul;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// A book read back from what it put into storage.
fn reloaded(device: &mut Device) -> State {
    let mut read = State::new(device.state.me);
    for record in device.records() {
        let json = device.state.stored(&record).unwrap();
        read.load(&record, &json).unwrap();
        assert_eq!(read.stored(&record), Some(json));
    }
    read
}

proptest! {
    #![proptest_config(crate::tries(128))]

    #[test]
    fn the_book_in_memory_is_the_one_that_its_changes_add_up_to(program in programs(40)) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        prop_assert_eq!(&device.fresh(), &device.state);
        prop_assert_eq!(reloaded(&mut device).tables, device.state.tables);
    }

    #[test]
    fn so_is_a_book_with_changes_of_others_in_it(moves in moves(40)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        for device in &mut devices {
            prop_assert_eq!(&device.fresh(), &device.state);
            prop_assert_eq!(reloaded(device).tables, device.state.tables.clone());
        }
    }

    /// What belongs to something is found without going through all there is, which finds the same.
    #[test]
    fn what_belongs_to_something_is_found_as_by_going_through_all(moves in moves(40)) {
        let mut devices = Device::several(3);
        play(&mut devices, &moves);
        for device in &devices {
            let (state, tables) = (&device.state, &device.state.tables);
            for lot in tables.lots.keys().map(|id| LotId(*id)) {
                let all = state.things().filter(|(_, thing)| thing.lot == Some(lot));
                let all: Vec<ThingId> = all.map(|(id, _)| id).collect();
                prop_assert_eq!(state.things_of(lot).collect::<Vec<_>>(), all);
            }
            let lots = state.lots();
            for trip in tables.trips.keys().map(|id| TripId(*id)) {
                let cash = tables.cash.iter().filter(|(_, one)| !one.value.gone && one.value.trip == Some(trip));
                let cash: Vec<CashId> = cash.map(|(id, _)| CashId(*id)).collect();
                prop_assert_eq!(state.cash_of(trip).map(|(id, _)| id).collect::<Vec<_>>(), cash);
                let is_used = |id: StopId| {
                    let mut cash = tables.cash.values().filter(|one| !one.value.gone);
                    cash.any(|one| one.value.stop == Some(id)) || lots.iter().any(|lot| lot.lot.stop == Some(id))
                };
                let stops = tables.stops.iter().filter(|(id, one)| {
                    one.value.trip == Some(trip) && (!one.value.gone || is_used(StopId(**id)))
                });
                let stops: BTreeSet<StopId> = stops.map(|(id, _)| StopId(*id)).collect();
                prop_assert_eq!(state.stops_of(trip).into_iter().map(|(id, _)| id).collect::<BTreeSet<_>>(), stops);
            }
            let works = state.works();
            for (thing, _) in state.things() {
                let photos = state.photos().filter(|(_, photo)| photo.thing == Some(thing));
                let photos: Vec<PhotoId> = photos.map(|(id, _)| id).collect();
                prop_assert_eq!(state.photos_of(thing).map(|(id, _)| id).collect::<Vec<_>>(), photos);
                let on_it = works.iter().filter_map(|work| {
                    let share = work.shares.iter().find(|(of, _)| *of == thing);
                    share.map(|(_, share)| (work.id, *share))
                });
                let found = state.works_of(thing).into_iter().map(|(id, _, share)| (id, share));
                prop_assert_eq!(found.collect::<Vec<_>>(), on_it.collect::<Vec<_>>());
            }
            for kind in state.kinds() {
                prop_assert_eq!(state.kind(kind.id), Some(kind));
            }
            prop_assert_eq!(state.kind(KindId(uuid::Uuid::max())), None);
        }
    }

    /// What goes to the disk before a save is shown is what the book holds afterwards.
    #[test]
    fn records_written_ahead_are_the_records_of_the_book_afterwards(moves in moves(12), program in programs(12)) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        let device = &mut devices[0];
        for timed in &program {
            device.wait(timed.wait);
            let Ok(edits) = device.plan(&timed.step) else { continue };
            let changes = device.state.stamp(edits.clone(), device.now);
            let before = device.state.clone();
            let ahead = device.state.as_after(&changes);
            prop_assert_eq!(&device.state, &before, "looking ahead moves nothing");
            prop_assert_eq!(device.commit(edits), changes);
            for (record, json) in ahead {
                prop_assert_eq!(device.state.stored(&record), Some(json));
            }
        }
    }

    /// A thing whose removal is in dispute stays, and so does what it cost, though nobody disputes that its lot went. A thing alone in its
    /// lot, of which nothing else was said, cost all that was paid for it.
    #[test]
    fn every_thing_that_is_there_has_its_cost(moves in moves(30)) {
        let mut devices = Device::several(2);
        play(&mut devices, &moves);
        settle(&mut devices);
        let state = &devices[0].state;
        for row in haul(state).unwrap().rows {
            let thing = state.thing(row.id).unwrap();
            let lot = &state.tables.lots[&thing.lot.unwrap().0].value;
            let is_alone = state.things().filter(|(_, other)| other.lot == thing.lot).count() == 1;
            let is_whole = lot.gone || lot.unsorted.is_none();
            let is_plain = thing.share.is_none() && thing.kept.is_none() && lot.method != Some(Method::ByHand);
            if is_alone && is_whole && is_plain {
                let total = lot.paid.unwrap().plus(lot.extras.unwrap_or_default());
                prop_assert_eq!(total, row.paid);
            }
        }
    }
}
