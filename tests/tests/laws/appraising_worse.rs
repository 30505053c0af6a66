//! Laws of the verdict when things are worse: higher charges, a heavier parcel, one that nobody takes; and of the largest amounts. A
//! dearer ask stands with the ceiling.

use haulwren_core::appraise::{Case, HouseRules, Judged, appraise};
use haulwren_core::measure::Weight;
use haulwren_core::money::{Money, Rate};
use haulwren_core::postage::{Arrangement, To, best};
use haulwren_core::terms::{Amount, Base, Schedule};
use haulwren_core::worth::Sells;
use proptest::prelude::*;

use crate::appraising::{Facts, facts};
use crate::postage::cards::{Box3, Facts as Card, ZONES, boxes, facts as cards};
use crate::postage::{arranging, quoting};

/// The schedule with one charge that takes more, in every one of its steps and limits.
fn dearer(schedule: &Schedule, which: usize, rate: Rate, flat: Money) -> Schedule {
    let mut schedule = schedule.clone();
    let count = schedule.charges.len();
    if let Some(charge) = schedule.charges.get_mut(which % count.max(1)) {
        let more = |limit: &mut Option<Money>| *limit = limit.map(|limit| limit.plus(flat));
        more(&mut charge.least);
        more(&mut charge.most);
        match &mut charge.amount {
            Amount::Percent(percent) => *percent = percent.plus(rate),
            Amount::Flat(amount) => *amount = amount.plus(flat),
            Amount::Brackets(steps) | Amount::Slices(steps) | Amount::Tiers { steps, .. } => {
                for step in steps {
                    step.percent = step.percent.plus(rate);
                    step.flat = step.flat.plus(flat);
                }
            }
        }
    }
    schedule
}

/// Not better: neither what is kept, nor the ceiling, nor the word.
pub fn expect_no_better(worse: &Judged, than: &Judged) -> Result<(), TestCaseError> {
    let exact = |judged: &Judged| judged.ceiling.map_or(-1, |ceiling| ceiling.exact.minor());
    prop_assert!(worse.keep() <= than.keep());
    prop_assert!(worse.low_keep() <= than.low_keep());
    prop_assert!(exact(worse) <= exact(than));
    prop_assert!(worse.verdict.unwrap().0 <= than.verdict.unwrap().0);
    Ok(())
}

/// Whether the venue never takes less for more postage. Brackets of all that the buyer pays may: a dearer label can lift a sale into a
/// bracket with a lower rate, as a dearer price can.
fn rises_with_postage(schedule: &Schedule) -> bool {
    schedule
        .charges
        .iter()
        .all(|charge| charge.base == Base::Price || !matches!(charge.amount, Amount::Brackets(_)))
}

/// What is made of a parcel that costs so much, if anything, and weighs so much.
fn sent(facts: &Facts, ask: i64, postage: Option<Money>, weight: Weight) -> Option<Judged> {
    let case = Case {
        postage,
        weight: Some(weight),
        ..facts.case(Some(ask))
    };
    appraise(&case).judged
}

fn quoted(card: &Card, of: Box3, to: To) -> (Option<Money>, Weight) {
    let parcel = quoting::parcel(of);
    let found = best(&card.card(), &parcel, to);
    (found.ok().map(|(_, quote)| quote.total), parcel.weight)
}

fn zones() -> impl Strategy<Value = To> {
    prop_oneof![(0..ZONES).prop_map(To::Zone), Just(To::Mix)]
}

proptest! {
    #![proptest_config(crate::tries(1024))]

    #[test]
    fn higher_charges_never_improve_the_verdict(
        facts in facts(),
        ask in 0_i64..4_000,
        which in 0_usize..8,
        more in (0_u32..200_000, 0_i64..200),
    ) {
        let rate = Rate::percent(more.0 / 10_000);
        let schedule = dearer(&facts.schedule, which, rate, Money::new(more.1));
        let worse = Facts { schedule, ..facts.clone() };
        expect_no_better(&worse.judged(Some(ask)), &facts.judged(Some(ask)))?;
    }

    #[test]
    fn a_heavier_parcel_never_improves_the_verdict(
        facts in facts().prop_filter("falls", |facts| rises_with_postage(&facts.schedule)),
        arrangement in arranging::rising(),
        ask in 0_i64..4_000,
        card in cards(),
        of in boxes(),
        more in 1_i128..500,
        to in zones(),
    ) {
        let facts = Facts { arrangement, ..facts };
        let judged = |of| {
            let (postage, weight) = quoted(&card, of, to);
            sent(&facts, ask, postage, weight)
        };
        // A step that isn't offered in a zone has no price, though a heavier one may have: then there is nothing to compare.
        if let (Some(light), Some(heavy)) = (judged(of), judged((of.0 + more, of.1))) {
            expect_no_better(&heavy, &light)?;
        }
    }

    #[test]
    fn a_parcel_that_nobody_takes_has_no_verdict(
        facts in facts(),
        arrangement in arranging::rising(),
        ask in 0_i64..4_000,
        card in cards(),
        of in boxes(),
        to in zones(),
    ) {
        let (postage, weight) = quoted(&card, of, to);
        let zone = match to {
            To::Zone(zone) => card.model(of, zone),
            To::Mix => None,
        };
        prop_assert!(to == To::Mix || postage.map(Money::minor) == zone);
        let mut way = &arrangement;
        if let Arrangement::FreeFrom { below, .. } = way {
            way = below;
        }
        let goes_by_card = !matches!(way, Arrangement::HandedOver | Arrangement::Label { .. });
        if postage.is_none() && goes_by_card {
            let facts = Facts { arrangement, ..facts };
            prop_assert_eq!(sent(&facts, ask, postage, weight), None);
        }
    }
}

proptest! {
    #![proptest_config(crate::tries(512))]

    /// A book can be brought to any state by a merge; every state has a sum.
    #[test]
    fn the_largest_amounts_are_judged_too(
        facts in facts(),
        large in prop::array::uniform4(-Money::MAX.minor()..=Money::MAX.minor()),
        ask in 0..=Money::MAX.minor(),
    ) {
        let price = Money::new(large[0]).abs();
        let rules = HouseRules { least_keep: Some(Money::new(large[1])), cash_step: Money::new(large[2]), ..facts.rules };
        let sells = Sells::new(None, price, Some(Money::MAX)).unwrap();
        let facts = Facts { sells, rules, postage: large[3], packing: large[3], ..facts };
        let found = facts.judged(Some(ask));
        prop_assert!(found.verdict.is_some() && !found.reasons.is_empty());
    }
}
