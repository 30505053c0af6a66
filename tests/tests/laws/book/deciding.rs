//! Commands: what is taken is in the book afterwards; nothing breaks, whatever is asked for.

use super::any_commands::any_commands;
use super::device::Device;
use super::haul_holds::haul_holds;
use super::program::{Step, programs, setups};
use super::setup_steps::setup_holds;
use haulwren_core::book::{Command, Context, Refusal};
use haulwren_core::change::Change;
use haulwren_core::id::{TermsId, ThingId, VenueId};
use haulwren_core::stamp::At;
use proptest::prelude::*;

/// Is it in the book as it was asked for?
fn holds(device: &Device, step: &Step, changes: &[Change]) -> bool {
    let (state, today) = (&device.state, device.now.day().unwrap());
    let made = |kind: &str| {
        changes
            .iter()
            .find(|one| one.kind.name() == kind)
            .map(|one| one.id)
    };
    match step {
        Step::Rules(rules, allowances) => {
            state.house_rules(state.currency().unwrap()) == *rules
                && state.allowances() == *allowances
        }
        Step::Venue(_, setup) => {
            let named = |(id, venue): (VenueId, &haulwren_core::book::Venue)| {
                (venue.name.as_deref() == Some(setup.name.trim())).then_some((id, venue.clone()))
            };
            let (id, venue) = state.venues().find_map(named).unwrap();
            let terms = state.terms_on(id, today).unwrap().1;
            (venue.arrangement, venue.postage, venue.packing)
                == (
                    Some(setup.arrangement.clone()),
                    setup.postage,
                    setup.packing,
                )
                && state.usual_of(id) == setup.usual
                && terms.schedule.as_ref() == Some(&setup.schedule)
                && terms.checked == Some(today)
                && state.usual_venue().is_some()
        }
        Step::Use(_) => {
            let chosen = changes[0].set["usual_venue"].as_str().unwrap();
            state.usual_venue() == chosen.parse().ok()
        }
        Step::Remove(_) => state.venue(VenueId(changes[0].id)).is_none(),
        Step::Buy(purchase) => {
            let thing = state.thing(ThingId(made("thing").unwrap())).unwrap();
            let lot = state.lot(thing.lot.unwrap()).unwrap();
            let asked = &purchase.things[0];
            lot.paid == Some(purchase.paid)
                && lot.bought == Some(device.now)
                && thing.name.as_deref().unwrap_or_default() == asked.name.trim()
                && thing.sells == asked.sells
                && (thing.postage, thing.packing) == (Some(asked.postage), Some(asked.packing))
        }
        Step::Rename(_, name) => {
            state.thing(ThingId(changes[0].id)).unwrap().name.as_deref() == Some(name.trim())
        }
        Step::TakeOut(_) => state.thing(ThingId(changes[0].id)).is_none(),
        Step::Haul(step) => haul_holds(device, step, changes),
        Step::Setup(step) => setup_holds(device, step, changes),
        // See the laws of undoing, settling and attention.
        Step::Undo(_) | Step::Settle(..) | Step::Back(..) | Step::Cure(_) => true,
    }
}

proptest! {
    #![proptest_config(crate::tries(128))]

    #[test]
    fn what_was_saved_is_in_the_book(program in programs(40)) {
        let mut device = Device::begun();
        for timed in &program {
            if let Ok(changes) = device.run(timed) {
                prop_assert!(!changes.is_empty() && changes.iter().all(|change| !change.set.is_empty()));
                prop_assert!(holds(&device, &timed.step, &changes), "{:?} by {:?}", timed.step, changes);
            }
        }
    }

    /// "Used terms are never edited: a new version is written." Only undo may take back what was said of them.
    #[test]
    fn terms_that_a_verdict_rests_on_stand(program in programs(40)) {
        let mut device = Device::begun();
        for timed in program.iter().filter(|timed| !matches!(timed.step, Step::Undo(_))) {
            let before = device.state.clone();
            // A refusal is a fine answer.
            drop(device.run(timed));
            for (id, terms) in before.tables.terms.iter().filter(|(id, _)| before.terms_used(TermsId(**id))) {
                let after = &device.state.tables.terms[id].value;
                prop_assert_eq!(&after.schedule, &terms.value.schedule);
                prop_assert_eq!((after.venue, after.from), (terms.value.venue, terms.value.from));
            }
        }
    }

    /// A save says only what it changes, so that saving the same again has nothing to say.
    #[test]
    fn the_same_again_is_refused(program in programs(10), setup in setups()) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        let add = device.plan(&Step::Venue(None, Box::new(setup.clone())));
        if add.is_ok_and(|edits| !device.commit(edits).is_empty()) {
            let id = device.state.venues().find(|(_, venue)| venue.name.as_deref() == Some(setup.name.trim())).unwrap().0;
            let again = Command::SaveVenue { id: Some(id), setup };
            prop_assert_eq!(device.decide(&again), Err(Refusal::NoChange));
        }
    }

    #[test]
    fn nothing_that_is_asked_for_breaks_the_book(
        program in programs(8),
        commands in prop::collection::vec(any_commands(), 1..6),
        at in (prop_oneof![any::<u64>(), 0..=u64::MAX >> 16, 253_402_200_000_000_u64..253_402_500_000_000], any::<i16>()),
        begun in any::<bool>(),
    ) {
        let mut device = if begun { Device::begun() } else { Device::new(0) };
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        let now = At(at.0, at.1);
        for command in &commands {
            let mut context = Context { at: now, chance: &mut || [0xff; 10] };
            let Ok(edits) = device.state.decide(command, &mut context) else { continue };
            let changes = device.state.stamp(edits, now);
            for change in &changes {
                device.state.fold_own(change);
                let line = change.line();
                prop_assert_eq!(&Change::from_line(&line).unwrap(), change, "{}", line);
            }
            device.log.extend(changes);
        }
        prop_assert_eq!(&device.fresh(), &device.state);
    }
}
