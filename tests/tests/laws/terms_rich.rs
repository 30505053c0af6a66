//! Laws of the terms with all their rules, held against the model.

use haulwren_core::money::Money;
use haulwren_core::terms::{
    Refusal, Schedule, dead_zones, invert, monthly, payout, refund, settle, unsold,
};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::terms_cases::{TOP, facts, terms};
use crate::terms_core::{sale, schedule};
use crate::terms_model::{Worked, back, work};
use crate::terms_types::{Facts, Rule, Terms};

const MONTH: u8 = 4;

fn of_sale(rule: &Rule) -> bool {
    rule.scope != MONTH
}

fn sold(terms: &Terms, facts: &Facts, price: i128) -> Worked {
    work(terms, facts, price, &of_sale)
}

/// The lines of the model, as the core has them: of charges that hold and of limits that make a difference.
fn lines(worked: &Worked) -> Vec<i128> {
    let charges = worked.rules.iter().filter(|came| came.by.0);
    let limits = worked.limits.iter().filter(|came| came.to != 0);
    charges.chain(limits).map(|came| came.to).collect()
}

fn minor(amount: Money) -> i128 {
    i128::from(amount.minor())
}

fn amounts(lines: &[haulwren_core::terms::Line]) -> Vec<i128> {
    lines.iter().map(|line| minor(line.amount)).collect()
}

proptest! {
    #![proptest_config(crate::tries(256))]

    #[test]
    fn a_sale_settles_as_the_model_says(terms in terms(), facts in facts(), prices in vec(0..2 * TOP, 40)) {
        let schedule = schedule(&terms);
        for price in prices {
            let sale = sale(&facts, price);
            let worked = sold(&terms, &facts, price);
            let settled = settle(&schedule, &sale);
            prop_assert_eq!(amounts(&settled.lines), lines(&worked));
            prop_assert_eq!(minor(settled.payout), worked.pays);
            prop_assert_eq!(settled.lines.iter().map(|line| line.amount).sum::<Money>(), settled.cut);
            prop_assert_eq!(settled.payout.plus(settled.cut), sale.price.plus(sale.post_in));
            prop_assert_eq!(payout(&schedule, &sale), settled.payout);
        }
    }

    #[test]
    fn what_is_owed_without_a_sale_and_what_comes_back_is_as_the_model_says(
        terms in terms(),
        facts in facts(),
        price in 0..2 * TOP,
    ) {
        let schedule = schedule(&terms);
        let offered = work(&terms, &facts, price, &|rule| of_sale(rule) && rule.unsold);
        let owed = unsold(&schedule, &sale(&facts, price));
        prop_assert_eq!(amounts(&owed.lines), lines(&offered));
        prop_assert_eq!(minor(owed.total), price + facts.post - offered.pays);

        let nothing = Facts { post: 0, tax: None, kind: None, promoted: false, region: None, running: 0 };
        let month = work(&terms, &nothing, 0, &|rule| !of_sale(rule));
        let each = monthly(&schedule);
        prop_assert_eq!(amounts(&each.lines), lines(&month));
        prop_assert_eq!(minor(each.total), -month.pays);

        let worked = sold(&terms, &facts, price);
        let mut expected = back(&terms, &worked);
        let returned = refund(&schedule, &sale(&facts, price));
        prop_assert_eq!(minor(returned.total), expected.iter().sum::<i128>());
        let cut = settle(&schedule, &sale(&facts, price)).cut;
        prop_assert!(returned.total <= cut && !returned.total.is_negative());
        expected.retain(|amount| *amount != 0);
        prop_assert_eq!(amounts(&returned.lines), expected);
    }

    #[test]
    fn a_rich_schedule_reads_back_from_its_text(terms in terms()) {
        let schedule = schedule(&terms);
        let text = serde_json::to_string(&schedule).unwrap();
        prop_assert_eq!(serde_json::from_str::<Schedule>(&text).unwrap(), schedule.clone());
        let value = serde_json::to_value(&schedule).unwrap();
        prop_assert_eq!(serde_json::from_value::<Schedule>(value).unwrap(), schedule);
    }
}

proptest! {
    #![proptest_config(crate::tries(64))]

    /// Where the same rules decide at three prices in a row, the unrounded payout is a straight line over them, and the
    /// real one is never further from it than a unit a charge.
    #[test]
    fn between_the_edges_the_payout_is_a_line_within_a_unit_a_charge(terms in terms(), facts in facts()) {
        let schedule = schedule(&terms);
        let all: Vec<Worked> = (0..2 * TOP).map(|price| sold(&terms, &facts, price)).collect();
        let charges = i128::try_from(terms.rules.len()).unwrap();
        for (price, worked) in (0..).zip(&all) {
            let paid = minor(payout(&schedule, &sale(&facts, price)));
            prop_assert!(worked.pays_exactly.is_within(charges, paid));
        }
        let by = |worked: &Worked| {
            let all = worked.rules.iter().chain(&worked.limits);
            all.map(|came| came.by).collect::<Vec<_>>()
        };
        for three in all.windows(3) {
            if by(&three[0]) == by(&three[1]) && by(&three[1]) == by(&three[2]) {
                let gains = |at: usize| three[at + 1].pays_exactly.minus(three[at].pays_exactly);
                prop_assert_eq!(gains(0), gains(1));
            }
        }
    }

    /// Tried at every single unit of price, from nothing up.
    #[test]
    fn the_price_found_is_the_least_that_pays_it(
        terms in terms(),
        facts in facts(),
        targets in vec(-3_00..2 * TOP, 12),
    ) {
        let schedule = schedule(&terms);
        let all: Vec<i128> = (0..2 * TOP).map(|price| sold(&terms, &facts, price).pays).collect();
        for target in targets {
            let least = all.iter().position(|pays| *pays >= target);
            let found = invert(&schedule, &sale(&facts, 17), Money::new(i64::try_from(target).unwrap()));
            match (found, least) {
                (Ok(price), Some(least)) => prop_assert_eq!(usize::try_from(price.minor()).unwrap(), least),
                (Ok(price), None) => {
                    prop_assert!(minor(price) >= 2 * TOP);
                    prop_assert!(sold(&terms, &facts, minor(price)).pays >= target);
                    prop_assert!(sold(&terms, &facts, minor(price) - 1).pays < target);
                }
                (Err(refusal), least) => {
                    prop_assert_eq!(refusal, Refusal::TooDear);
                    prop_assert_eq!(least, None);
                }
            }
        }
    }

    /// Found afresh at every single unit: a run begins where the unrounded payout falls and the real one does too, and ends
    /// where the price just under it is reached again.
    #[test]
    fn prices_to_skip_follow_a_real_fall_and_all_pay_less(terms in terms(), facts in facts(), up_to in TOP..2 * TOP) {
        let all: Vec<Worked> = (0..=up_to).map(|price| sold(&terms, &facts, price)).collect();
        let mut expected = Vec::new();
        let mut price = 1;
        while price < all.len() {
            let (under, here) = (&all[price - 1], &all[price]);
            if here.pays < under.pays && here.pays_exactly.is_under(under.pays_exactly) {
                let from = price;
                while price < all.len() && all[price].pays < under.pays {
                    price += 1;
                }
                expected.push((from, price - 1, from - 1));
            } else {
                price += 1;
            }
        }
        let found = dead_zones(&schedule(&terms), &sale(&facts, 17), Money::new(i64::try_from(up_to).unwrap()));
        let at = |amount: Money| usize::try_from(amount.minor()).unwrap();
        let found: Vec<_> = found.iter().map(|zone| (at(zone.from), at(zone.to), at(zone.better))).collect();
        prop_assert_eq!(found, expected);
    }

    /// Only where a rule changes, and never for the noise of rounding: with the same rules on both sides of it, no price begins a run
    /// of prices to skip.
    #[test]
    fn prices_to_skip_begin_only_where_a_rule_changes(terms in terms(), facts in facts()) {
        let by = |price: i128| {
            let worked = sold(&terms, &facts, price);
            let all = worked.rules.iter().chain(&worked.limits).map(|came| came.by);
            all.collect::<Vec<_>>()
        };
        let up_to = Money::new(i64::try_from(2 * TOP).unwrap());
        for zone in dead_zones(&schedule(&terms), &sale(&facts, 17), up_to) {
            prop_assert_ne!(by(minor(zone.from)), by(minor(zone.better)), "{:?}", zone);
        }
    }
}
