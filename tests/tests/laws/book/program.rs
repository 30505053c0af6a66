//! Random programs: what a trader may do with a book, in any order, with clocks that jump.

use super::haul_steps::{HaulStep, haul_steps};
use super::setup_steps::{SetupStep, setup_steps};
use haulwren_core::appraise::HouseRules;
use haulwren_core::book::{Bought, Purchase, VenueSetup};
use haulwren_core::money::{Money, Rate};
use haulwren_core::postage::Arrangement;
use haulwren_core::terms::{Regions, Usual};
use haulwren_core::worth::{Allowances, Sells};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::terms::fit_schedules;
use crate::terms_cases::rich_schedules;

/// One thing done. Small numbers choose among the records that are there, gone ones and one that never was included.
#[derive(Clone, Debug)]
pub enum Step {
    Rules(HouseRules, Allowances),
    Venue(Option<u8>, Box<VenueSetup>),
    Use(u8),
    Remove(u8),
    Buy(Purchase),
    Rename(u8, String),
    TakeOut(u8),
    Undo(u8),
    Haul(HaulStep),
    Setup(SetupStep),
    /// Settles a dispute on one of its choices.
    Settle(u8, u8),
    /// Goes back to an earlier value of a record, by its places in its history.
    Back(u8, u8),
    /// Sends the cure of something that needs the trader.
    Cure(u8),
}

/// A step, and by how much the clock moves before it.
#[derive(Clone, Debug)]
pub struct Timed {
    pub wait: i64,
    pub step: Step,
}

/// A few names that clash, and any others; some with blanks around.
pub fn names() -> impl Strategy<Value = String> {
    let known = prop::sample::select(vec!["Quayside", "Marlpost", "Townboard", "  Denim jacket "]);
    prop_oneof![
        3 => known.prop_map(str::to_owned),
        1 => "[a-z\u{e9}\"\\\\]{1,12}",
    ]
}

pub fn amounts() -> impl Strategy<Value = Money> {
    prop_oneof![1 => Just(0), 4 => 0_i64..5_000].prop_map(Money::new)
}

fn rates(most: u32) -> impl Strategy<Value = Rate> {
    (0..=most).prop_map(Rate::percent)
}

pub fn rules() -> impl Strategy<Value = HouseRules> {
    (
        prop::option::of(amounts()),
        any::<bool>(),
        amounts(),
        rates(100),
    )
        .prop_map(
            |(least_keep, no_loss_if_low, cash_step, reach)| HouseRules {
                least_keep,
                no_loss_if_low,
                cash_step,
                reach,
                least_multiple: None,
                longest_wait: None,
                hourly: least_keep,
            },
        )
}

pub fn allowances() -> impl Strategy<Value = Allowances> {
    [rates(33), rates(33), rates(33)].prop_map(|[unsold, offers, returns]| Allowances {
        unsold,
        offers,
        returns,
    })
}

/// How things usually sell, in regions that some schedules name and in others.
pub fn usuals() -> impl Strategy<Value = Usual> {
    let names = prop::sample::subsequence(vec!["North", "South", "west", "Isles"], 0..3);
    let regions = (names, rates(50), rates(50)).prop_map(|(names, one, other)| {
        let shares = [one, other];
        let pair = |(name, share): (&str, Rate)| (name.to_owned(), share);
        Regions(names.into_iter().zip(shares).map(pair).collect())
    });
    (
        prop::option::of(any::<bool>()),
        regions,
        prop::option::of(amounts()),
    )
        .prop_map(|(promoted, regions, monthly)| Usual {
            promoted,
            regions,
            monthly,
        })
}

pub fn setups() -> impl Strategy<Value = VenueSetup> {
    let arrangement = prop::sample::select(&Arrangement::ALL[..]);
    let schedule = prop_oneof![2 => fit_schedules(), 1 => rich_schedules()];
    let maybe = || prop::option::of(amounts());
    (names(), arrangement, maybe(), maybe(), schedule, usuals()).prop_map(
        |(name, arrangement, postage, packing, schedule, usual)| VenueSetup {
            name,
            arrangement,
            postage: postage.filter(|postage| !postage.is_zero()),
            packing,
            schedule,
            usual,
        },
    )
}

pub fn purchases() -> impl Strategy<Value = Purchase> {
    let sells = (amounts(), amounts(), amounts()).prop_map(|(low, more, most)| {
        let likely = low.plus(more);
        Sells::new(Some(low), likely, Some(likely.plus(most))).unwrap()
    });
    let name = prop_oneof![Just(String::new()), names()];
    (
        amounts(),
        name,
        prop::option::of(sells),
        amounts(),
        amounts(),
    )
        .prop_map(|(paid, name, sells, postage, packing)| {
            let thing = Bought {
                name,
                sells,
                postage,
                packing,
                ..Bought::default()
            };
            Purchase::of_one(paid, thing)
        })
}

pub fn steps() -> BoxedStrategy<Step> {
    let which = || any::<u8>();
    prop_oneof![
        1 => (rules(), allowances()).prop_map(|(rules, aside)| Step::Rules(rules, aside)),
        3 => (prop::option::of(which()), setups()).prop_map(|(which, setup)| Step::Venue(which, Box::new(setup))),
        1 => which().prop_map(Step::Use),
        1 => which().prop_map(Step::Remove),
        4 => purchases().prop_map(Step::Buy),
        3 => (which(), names()).prop_map(|(which, name)| Step::Rename(which, name)),
        2 => which().prop_map(Step::TakeOut),
        3 => which().prop_map(Step::Undo),
        14 => haul_steps().prop_map(Step::Haul),
        4 => setup_steps().prop_map(Step::Setup),
        3 => (which(), which()).prop_map(|(which, choice)| Step::Settle(which, choice)),
        1 => (which(), which()).prop_map(|(which, line)| Step::Back(which, line)),
        1 => which().prop_map(Step::Cure),
    ]
    .boxed()
}

/// The clock mostly stands or moves on by minutes, sometimes by days, sometimes back.
fn waits() -> impl Strategy<Value = i64> {
    const DAY: i64 = 86_400_000;
    prop_oneof![
        2 => Just(0),
        4 => 1_i64..600_000,
        2 => 0..3 * DAY,
        1 => -2 * DAY..0,
    ]
}

pub fn timed() -> impl Strategy<Value = Timed> {
    (waits(), steps()).prop_map(|(wait, step)| Timed { wait, step })
}

pub fn programs(most: usize) -> impl Strategy<Value = Vec<Timed>> {
    vec(timed(), 0..=most)
}

/// Steps that set the same few fields of the same few records, so that devices which do not hear of each other quarrel.
pub fn strife() -> impl Strategy<Value = Timed> {
    let few = || 0_u8..2;
    let step = prop_oneof![
        3 => (few(), names()).prop_map(|(thing, name)| Step::Rename(thing, name)),
        2 => few().prop_map(Step::TakeOut),
        2 => (few(), setups()).prop_map(|(venue, setup)| Step::Venue(Some(venue), Box::new(setup))),
        1 => few().prop_map(Step::Remove),
        2 => (rules(), allowances()).prop_map(|(rules, aside)| Step::Rules(rules, aside)),
        3 => (few(), amounts()).prop_map(|(lot, paid)| Step::Haul(HaulStep::Paid(lot, paid))),
        2 => (few(), prop::option::of(amounts()))
            .prop_map(|(thing, share)| Step::Haul(HaulStep::Fix(thing, share))),
        2 => (few(), names()).prop_map(|(thing, maker)| Step::Haul(HaulStep::Mark(thing, maker, None))),
        1 => few().prop_map(|work| Step::Haul(HaulStep::RemoveWork(work))),
        1 => any::<u8>().prop_map(Step::Undo),
    ];
    (waits(), step.boxed()).prop_map(|(wait, step)| Timed { wait, step })
}
