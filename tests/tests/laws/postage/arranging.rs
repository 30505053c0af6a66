//! Laws of arrangements: their two lines, against a model from the words.

use haulwren_core::measure::{Weight, WeightUnit};
use haulwren_core::money::{Money, Rate};
use haulwren_core::postage::{Arrangement, LabelPrice, Payer};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

fn payers() -> impl Strategy<Value = Payer> {
    prop_oneof![
        Just(Payer::Buyer),
        Just(Payer::Seller),
        (0_u32..=100).prop_map(|share| Payer::Shared(Rate::percent(share))),
    ]
}

fn label(prices: impl Strategy<Value = LabelPrice>) -> impl Strategy<Value = Arrangement> {
    (prices, payers()).prop_map(|(price, payer)| Arrangement::Label { price, payer })
}

fn amounts() -> impl Strategy<Value = Money> {
    (0_i64..2_000).prop_map(Money::new)
}

fn free(below: impl Strategy<Value = Arrangement>) -> impl Strategy<Value = Arrangement> {
    let sums = (0_i64..6_000).prop_map(Money::new);
    (sums, below).prop_map(|(sum, below)| Arrangement::FreeFrom {
        sum,
        below: Box::new(below),
    })
}

fn plain() -> impl Strategy<Value = Arrangement> {
    prop_oneof![
        prop::sample::select(&Arrangement::ALL[..]),
        amounts().prop_map(Arrangement::Stated),
        label(amounts().prop_map(LabelPrice::Flat)),
    ]
}

/// Arrangements that need no weight.
pub fn weightless() -> impl Strategy<Value = Arrangement> {
    prop_oneof![3 => plain(), 1 => free(plain())]
}

/// With labels by weight too, which never cost less for more weight.
pub fn rising() -> impl Strategy<Value = Arrangement> {
    arrangements().prop_map(|mut arrangement| {
        let mut way = &mut arrangement;
        if let Arrangement::FreeFrom { below, .. } = way {
            way = below;
        }
        if let Arrangement::Label {
            price: LabelPrice::Bands(bands),
            ..
        } = way
        {
            let mut most = Money::ZERO;
            for (_, price) in bands {
                most = most.max(*price);
                *price = most;
            }
        }
        arrangement
    })
}

/// All of them.
pub fn arrangements() -> impl Strategy<Value = Arrangement> {
    let bands = vec((1_u16..20, amounts()), 1..5).prop_map(|steps| {
        let mut ounces = 0;
        let mut band = |(more, price)| {
            ounces += more;
            (Weight::whole(ounces, WeightUnit::Ounce), price)
        };
        LabelPrice::Bands(steps.into_iter().map(&mut band).collect())
    });
    let bands = label(bands).boxed();
    prop_oneof![weightless(), bands.clone(), free(bands)]
}

/// What the buyer pays for postage and what it costs, worked out afresh. `None` when something isn't known, or there is no label.
pub fn model(
    arrangement: &Arrangement,
    cost: i64,
    ounces: Option<u16>,
    order: i64,
) -> Option<(i64, i64)> {
    Some(match arrangement {
        Arrangement::HandedOver => (0, 0),
        Arrangement::BuyerAtCost => (cost, cost),
        Arrangement::SellerPays => (0, cost),
        Arrangement::Stated(sum) => (sum.minor(), cost),
        Arrangement::Label { price, payer } => {
            let out = match price {
                LabelPrice::Flat(flat) => flat.minor(),
                LabelPrice::Bands(bands) => {
                    let grams = Weight::whole(ounces?, WeightUnit::Ounce).grams();
                    let takes = |band: &&(Weight, Money)| grams <= band.0.grams();
                    bands.iter().find(takes)?.1.minor()
                }
            };
            let share = match payer {
                Payer::Buyer => 100,
                Payer::Seller => 0,
                Payer::Shared(rate) => i64::from(rate.ten_thousandths() / 10_000),
            };
            // Half a unit goes up: no amount here is below nothing.
            ((out * share + 50) / 100, out)
        }
        Arrangement::FreeFrom { sum, below } => {
            let (paid_in, out) = model(below, cost, ounces, order)?;
            (if order < sum.minor() { paid_in } else { 0 }, out)
        }
    })
}

proptest! {
    #![proptest_config(crate::tries(1024))]

    #[test]
    fn both_lines_are_as_the_words_say(
        arrangement in arrangements(),
        cost in 0_i64..3_000,
        ounces in option::of(0_u16..90),
        order in 0_i64..8_000,
    ) {
        prop_assert_eq!(arrangement.check(), Ok(()));
        let weight = ounces.map(|ounces| Weight::whole(ounces, WeightUnit::Ounce));
        let found = arrangement.posting(Some(Money::new(cost)), weight, Money::new(order));
        let found = found.ok().map(|posting| (posting.paid_in.minor(), posting.out.minor()));
        prop_assert_eq!(found, model(&arrangement, cost, ounces, order));
    }

    #[test]
    fn an_arrangement_reads_back(arrangement in arrangements()) {
        let json = serde_json::to_string(&arrangement).unwrap();
        prop_assert_eq!(serde_json::from_str::<Arrangement>(&json).unwrap(), arrangement);
    }
}
