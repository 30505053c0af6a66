//! Laws of the ceiling and the verdict.

use haulwren_core::appraise::{
    Case, Figure, Flag, HouseRules, Judged, Multiple, Rule, Selling, Verdict, appraise,
};
use haulwren_core::money::{Currency, Money, Rate, down_to_step};
use haulwren_core::postage::Arrangement;
use haulwren_core::terms::{Schedule, settle_by};
use haulwren_core::worth::{Allowances, Sells};
use proptest::prelude::*;

use crate::postage::arranging;
use crate::terms::schedules;
use crate::terms_cases::rich_schedules;

/// Nothing is known of how things usually sell.
pub const USUAL: &haulwren_core::terms::Usual = &haulwren_core::terms::Usual {
    promoted: None,
    regions: haulwren_core::terms::Regions(Vec::new()),
    monthly: None,
};

/// A case that owns its schedule.
#[derive(Clone, Debug)]
pub struct Facts {
    pub schedule: Schedule,
    pub arrangement: Arrangement,
    pub sells: Sells,
    pub postage: i64,
    pub packing: i64,
    pub allowances: Allowances,
    pub rules: HouseRules,
}

impl Facts {
    pub fn case(&self, ask: Option<i64>) -> Case<'_> {
        Case {
            currency: Currency::from_code("USD").unwrap(),
            ask: ask.map(Money::new),
            sells: Some(self.sells),
            venue: Some(Selling {
                arrangement: &self.arrangement,
                schedule: &self.schedule,
                usual: USUAL,
            }),
            postage: Some(Money::new(self.postage)),
            packing: Money::new(self.packing),
            work: Money::ZERO,
            premium: Rate::ZERO,
            weight: None,
            kind: None,
            allowances: self.allowances,
            rules: self.rules,
        }
    }

    pub fn judged(&self, ask: Option<i64>) -> Judged {
        appraise(&self.case(ask)).judged.unwrap()
    }

    /// What is left before purchase at a price, worked out afresh without allowances.
    fn plain_sum(&self, price: Money) -> i64 {
        let (post_in, post_out) =
            arranging::model(&self.arrangement, self.postage, None, price.minor()).unwrap();
        let packing = if self.arrangement.is_posted() {
            self.packing
        } else {
            0
        };
        let (settled, _) = settle_by(&self.schedule, None, USUAL, price, Money::new(post_in));
        settled.payout.minor() - post_out - packing
    }
}

fn rules() -> impl Strategy<Value = HouseRules> {
    (
        proptest::option::of(0_i64..1_500),
        any::<bool>(),
        prop_oneof![
            Just(0_i64),
            Just(25),
            Just(50),
            Just(100),
            Just(500),
            1_i64..700
        ],
        0_u32..=100,
        proptest::option::of((0_u16..500).prop_map(Multiple)),
    )
        .prop_map(
            |(least_keep, no_loss_if_low, step, reach, least_multiple)| HouseRules {
                least_multiple,
                longest_wait: None,
                hourly: None,
                least_keep: least_keep.map(Money::new),
                no_loss_if_low,
                cash_step: Money::new(step),
                reach: Rate::percent(reach),
            },
        )
}

pub fn facts() -> impl Strategy<Value = Facts> {
    let sells = (0_i64..3_000, 0_i64..3_000, 0_i64..3_000).prop_map(|(low, more, most)| {
        let [low, likely, high] = [low, low + more, low + more + most].map(Money::new);
        Sells::new(Some(low), likely, Some(high)).unwrap()
    });
    let allowances =
        (0_u32..40, 0_u32..20, 0_u32..20).prop_map(|(unsold, offers, returns)| Allowances {
            unsold: Rate::percent(unsold),
            offers: Rate::percent(offers),
            returns: Rate::percent(returns),
        });
    let arrangement = arranging::weightless();
    (
        prop_oneof![schedules(), rich_schedules()],
        arrangement,
        sells,
        0_i64..900,
        0_i64..100,
        allowances,
        rules(),
    )
        .prop_map(
            |(schedule, arrangement, sells, postage, packing, allowances, rules)| Facts {
                schedule,
                arrangement,
                sells,
                postage,
                packing,
                allowances,
                rules,
            },
        )
}

/// Does a rule hold at this ask? Worked out afresh.
fn holds(rule: Rule, facts: &Facts, ask: i64) -> bool {
    let found = facts.judged(Some(ask));
    match rule {
        Rule::LeastKeep => facts
            .rules
            .least_keep
            .is_none_or(|least| found.likely.before.minor() - ask >= least.minor()),
        Rule::LeastMultiple => facts.rules.least_multiple.is_none_or(|times| {
            i128::from(found.likely.before.minor()) * 100 >= i128::from(ask) * i128::from(times.0)
        }),
        Rule::NoLossIfLow => !facts.rules.no_loss_if_low || found.low.before.minor() >= ask,
        Rule::NoLoss => found.likely.before.minor() >= ask,
    }
}

const RULES: [Rule; 4] = [
    Rule::LeastKeep,
    Rule::LeastMultiple,
    Rule::NoLossIfLow,
    Rule::NoLoss,
];

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn at_the_ceiling_all_rules_hold_and_one_unit_more_breaks_the_binding_one(facts in facts()) {
        match facts.judged(None).ceiling {
            Ok(ceiling) => {
                let exact = ceiling.exact.minor();
                prop_assert!(RULES.iter().all(|rule| holds(*rule, &facts, exact)));
                prop_assert!(!holds(ceiling.bound_by, &facts, exact + 1));
                prop_assert_eq!(facts.judged(Some(exact)).verdict.unwrap().0, Verdict::Buy);
                prop_assert!(facts.judged(Some(exact + 1)).verdict.unwrap().0 < Verdict::Buy);
                let stepped = down_to_step(ceiling.exact, facts.rules.cash_step);
                prop_assert!(ceiling.shown == stepped || (stepped.is_zero() && ceiling.shown == ceiling.exact));
            }
            Err(rule) => {
                prop_assert!(!holds(rule, &facts, 0));
                prop_assert_eq!(facts.judged(Some(0)).verdict, Some((Verdict::Leave, Flag::NotEvenFree)));
            }
        }
    }

    #[test]
    fn a_dearer_ask_never_improves_the_verdict(facts in facts(), ask in 0_i64..6_000, more in 0_i64..3_000) {
        let verdict = |ask| facts.judged(Some(ask)).verdict.unwrap().0;
        prop_assert!(verdict(ask + more) <= verdict(ask));
        prop_assert!(verdict(ask + 1) <= verdict(ask));
    }

    #[test]
    fn a_buy_is_an_ask_within_the_ceiling_and_a_haggle_one_within_reach(facts in facts(), ask in 0_i64..6_000) {
        let found = facts.judged(Some(ask));
        let exact = found.ceiling.map_or(-1, |ceiling| ceiling.exact.minor());
        let reached = exact * 100 >= ask * (100 - i64::from(facts.rules.reach.ten_thousandths() / 10_000));
        let expected = if ask <= exact {
            Verdict::Buy
        } else if exact > 0 && reached {
            Verdict::Haggle
        } else {
            Verdict::Leave
        };
        prop_assert_eq!(found.verdict.unwrap().0, expected);
    }

    #[test]
    fn an_opening_offer_is_whole_coins_under_the_ask_and_the_ceiling(facts in facts(), ask in 0_i64..6_000) {
        let found = facts.judged(Some(ask));
        let shown = found.most_to_pay();
        let offer = match found.verdict.unwrap().1 {
            Flag::Try(offer) => Some(offer),
            Flag::NoMinimum(offer) => offer,
            Flag::OpenStop { open, stop } => {
                prop_assert_eq!(stop, shown);
                open
            }
            _ => None,
        };
        let coin = facts.rules.cash_step.minor().max(100);
        if let Some(offer) = offer {
            prop_assert_eq!(offer.minor() % coin, 0);
            prop_assert!(offer.minor() > 0 && offer.minor() < ask && offer <= shown);
        }
        if let (Ok(ceiling), true) = (found.ceiling, found.verdict.unwrap().0 > Verdict::Leave) {
            // In sixths of a minor unit, so that a half and two thirds are both whole.
            let aim = (3 * ceiling.exact.minor()).min(4 * ask);
            let nearest = (2 * aim + 6 * coin) / (12 * coin) * coin;
            let expected = nearest.min(shown.minor() / coin * coin);
            let expected = (expected > 0 && expected < ask).then(|| Money::new(expected));
            prop_assert_eq!(offer, expected);
        }
    }

    #[test]
    fn without_allowances_the_keep_is_the_plain_sum(facts in facts(), ask in 0_i64..6_000) {
        let facts = Facts { allowances: Allowances::NONE, ..facts };
        let found = facts.judged(Some(ask));
        prop_assert_eq!(found.keep().minor(), facts.plain_sum(facts.sells.likely()) - ask);
        prop_assert_eq!(found.low_keep().minor(), facts.plain_sum(facts.sells.low()) - ask);
    }

    #[test]
    fn every_figure_is_the_sum_of_its_lines(facts in facts(), ask in 0_i64..6_000) {
        let found = facts.judged(Some(ask));
        let figures = [
            (Figure::BuyerPays, found.likely.buyer_pays),
            (Figure::YouPay, Money::new(ask)),
            (Figure::Keep, found.keep()),
            (Figure::LowKeep, found.low_keep()),
            (Figure::BeforePurchase, found.likely.before),
            (Figure::SetAside, found.likely.aside.total),
            (Figure::Packing, found.likely.packing),
            (Figure::Postage, found.likely.posting.out),
            (Figure::Cut, found.likely.cut()),
            (Figure::Ceiling, found.most_to_pay()),
        ];
        for (figure, amount) in figures {
            let sum = found.why(figure).iter().map(|line| line.amount).sum::<Money>();
            prop_assert_eq!(sum, amount, "{:?}", figure);
        }
        let parts = [ask, found.keep().minor(), found.likely.aside.total.minor(), found.likely.packing.minor(),
            found.likely.posting.out.minor(), found.likely.cut().minor()];
        prop_assert_eq!(parts.iter().sum::<i64>(), found.likely.buyer_pays.minor(), "the whole rail");
    }
}
