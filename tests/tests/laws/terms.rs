//! Laws of settling a sale and of finding a price, on simple schedules: percentages and flat amounts, at any size. Those of
//! the other rules stand beside their model.

use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{Amount, Base, Charge, Refusal, Sale, Schedule, invert, payout, settle};
use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

/// Up to five charges; percentages of up to 30 each, so some schedules take more than the whole price.
pub fn schedules() -> impl Strategy<Value = Schedule> {
    let base = prop_oneof![Just(Base::Price), Just(Base::PriceAndPost)];
    let percent = (0_i64..=300_000)
        .prop_map(|parts| Amount::Percent(Rate::from_decimal(Decimal::new(parts, 4)).unwrap()));
    let flat = (0_i64..300).prop_map(|minor| Amount::Flat(Money::new(minor)));
    let charge = (base, prop_oneof![3 => percent, 1 => flat])
        .prop_map(|(base, amount)| Charge::new("Charge", base, amount));
    vec(charge, 0..=5).prop_map(Schedule::of)
}

/// Those that a book takes.
pub fn fit_schedules() -> impl Strategy<Value = Schedule> {
    schedules().prop_filter("takes all", |schedule| schedule.check().is_ok())
}

/// Do the percentages come to the whole or more?
fn takes_all(schedule: &Schedule) -> bool {
    let parts = |charge: &Charge| match charge.amount {
        Amount::Percent(rate) => rate.ten_thousandths(),
        _ => 0,
    };
    schedule.charges.iter().map(parts).sum::<u32>() >= 1_000_000
}

/// The payout in minor units, worked out afresh in whole numbers: each percentage to the nearest unit, half up.
fn model(schedule: &Schedule, price: i64, post_in: i64) -> i64 {
    let charged = |charge: &Charge| match charge.amount {
        Amount::Flat(flat) => flat.minor(),
        Amount::Percent(rate) => {
            let of = match charge.base {
                Base::Price => price,
                Base::PriceAndPost => price + post_in,
                ref other => unreachable!("no simple base: {other:?}"),
            };
            (of * i64::from(rate.ten_thousandths()) + 500_000) / 1_000_000
        }
        ref other => unreachable!("no simple amount: {other:?}"),
    };
    price + post_in - schedule.charges.iter().map(charged).sum::<i64>()
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn lines_cut_and_payout_add_up(schedule in schedules(), price in 0_i64..1_000_000, post in 0_i64..5_000) {
        let (price, post_in) = (Money::new(price), Money::new(post));
        let settled = settle(&schedule, &Sale::of(price, post_in));
        prop_assert_eq!(settled.lines.len(), schedule.charges.len());
        prop_assert_eq!(settled.lines.iter().map(|line| line.amount).sum::<Money>(), settled.cut);
        prop_assert_eq!(settled.payout.plus(settled.cut), price.plus(post_in));
        prop_assert_eq!(settled.payout.minor(), model(&schedule, price.minor(), post));
        prop_assert_eq!(payout(&schedule, &Sale::of(price, post_in)), settled.payout);
    }

    #[test]
    fn a_schedule_reads_back_from_its_text(schedule in schedules()) {
        let text = serde_json::to_string(&schedule).unwrap();
        prop_assert_eq!(serde_json::from_str::<Schedule>(&text).unwrap(), schedule);
    }
}

proptest! {
    #![proptest_config(crate::tries(256))]

    /// Tried at every single unit of price, from nothing up.
    #[test]
    fn the_price_found_is_the_least_that_will_do(
        schedule in schedules(),
        post in 0_i64..1_000,
        target in -500_i64..5_000,
    ) {
        const SEARCHED: i64 = 20_000;
        let least = (0..SEARCHED).find(|price| model(&schedule, *price, post) >= target);
        let found = invert(&schedule, &Sale::of(Money::ZERO, Money::new(post)), Money::new(target));
        match (found, least) {
            (Ok(price), Some(least)) => prop_assert_eq!(price.minor(), least),
            (Ok(price), None) => {
                prop_assert!(price.minor() >= SEARCHED);
                prop_assert!(model(&schedule, price.minor(), post) >= target);
            }
            (Err(Refusal::TakesAll), _) => prop_assert!(takes_all(&schedule)),
            (Err(Refusal::TooDear), least) => prop_assert_eq!(least, None),
        }
    }

    #[test]
    fn any_target_is_answered_or_refused(schedule in schedules(), post in 0_i64..1_000, target in any::<i64>()) {
        let target = Money::new(target % (Money::MAX.minor() + 1));
        let at = |price| Sale::of(price, Money::new(post));
        if let Ok(price) = invert(&schedule, &at(Money::ZERO), target) {
            prop_assert!(payout(&schedule, &at(price)) >= target);
            let under = price.minus(Money::new(1));
            prop_assert!(price.is_zero() || payout(&schedule, &at(under)) < target);
        }
    }
}
