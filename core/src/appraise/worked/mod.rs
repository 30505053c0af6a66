//! The worked example, checked by hand: a summer dress at a driveway sale on three venues.

mod figures;
mod flags;
mod lines;

use super::*;
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::terms::{Base, Charge, Regions, Schedule, Usual};
use crate::worth::{Allowances, Sells};

const USUAL: &Usual = &Usual {
    promoted: None,
    regions: Regions(Vec::new()),
    monthly: None,
};

struct Dress {
    usd: Currency,
    quayside: Schedule,
    marlpost: Schedule,
    townboard: Schedule,
}

impl Dress {
    fn new() -> Self {
        let charges = Schedule::of;
        Self {
            usd: Currency::from_code("USD").unwrap(),
            quayside: charges(vec![
                Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
                Charge::flat("Order", Money::new(25)),
            ]),
            marlpost: charges(vec![Charge::percent(
                "Sale",
                Rate::percent(15),
                Base::Price,
            )]),
            townboard: Schedule::default(),
        }
    }

    fn case(&self, ask: Option<i64>) -> Case<'_> {
        let prices = Sells::new(
            Some(Money::new(18_00)),
            Money::new(26_00),
            Some(Money::new(34_00)),
        );
        Case {
            currency: self.usd,
            ask: ask.map(Money::new),
            sells: Some(prices.unwrap()),
            venue: Some(Selling {
                arrangement: &Arrangement::BuyerAtCost,
                schedule: &self.quayside,
                usual: USUAL,
            }),
            postage: Some(Money::new(4_50)),
            packing: Money::new(30),
            work: Money::ZERO,
            premium: Rate::ZERO,
            allowances: Allowances::default(),
            weight: None,
            kind: None,
            rules: HouseRules {
                least_multiple: None,
                longest_wait: None,
                hourly: None,
                least_keep: Some(Money::new(8_00)),
                no_loss_if_low: true,
                cash_step: Money::new(50),
                reach: Rate::percent(50),
            },
        }
    }
}

fn judged(case: &Case<'_>) -> Judged {
    appraise(case).judged.unwrap()
}

fn flag(case: &Case<'_>) -> (Verdict, String) {
    let (verdict, flag) = judged(case).verdict.unwrap();
    (verdict, flag.sentence(case.currency).unwrap_or_default())
}
