//! Schedules that no book takes but a file may hold: whatever can be read has a sum.

use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{
    Amount, Base, Charge, Group, Period, Positions, Refund, Sale, Schedule, Scope, Step, When,
    dead_zones, invert, monthly, payout, refund, settle, unsold,
};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::terms_cases::{facts, rich_schedules};
use crate::terms_core::sale;

/// Any amount, often a great one or one of a few units.
fn amounts() -> impl Strategy<Value = Money> {
    let most = Money::MAX.minor();
    prop_oneof![
        -most..=most,
        -500_i64..5_000,
        Just(most),
        Just(-most),
        Just(0),
    ]
    .prop_map(Money::new)
}

fn rates() -> impl Strategy<Value = Rate> {
    prop_oneof![Just(1_000_000), 0_i64..=1_000_000]
        .prop_map(|parts| Rate::from_decimal(Decimal::new(parts, 4)).unwrap())
}

fn places() -> impl Strategy<Value = Positions> {
    vec(1..=Positions::SPAN, 0..6).prop_map(|places| Positions::of(&places).unwrap())
}

fn steps() -> impl Strategy<Value = Step> {
    (amounts(), rates(), amounts()).prop_map(|(from, percent, flat)| Step {
        from,
        percent,
        flat,
    })
}

fn charges() -> impl Strategy<Value = Charge> {
    let base = prop_oneof![
        Just(Base::Price),
        Just(Base::PriceAndPost),
        rates().prop_map(Base::OrderTotal),
        places().prop_map(Base::Charges),
    ];
    let amount = prop_oneof![
        rates().prop_map(Amount::Percent),
        amounts().prop_map(Amount::Flat),
        vec(steps(), 0..4).prop_map(Amount::Brackets),
        vec(steps(), 0..4).prop_map(Amount::Slices),
        vec(steps(), 0..4).prop_map(|steps| Amount::Tiers {
            by: Period::Year,
            steps
        }),
    ];
    let scope = prop_oneof![4 => Just(Scope::Thing), 1 => Just(Scope::Month)];
    let refund = prop_oneof![
        Just(Refund::Returned),
        amounts().prop_map(Refund::ReturnedLess)
    ];
    let limits = [of(amounts()), of(amounts()), of(amounts()), of(amounts())];
    (base, amount, scope, refund, limits, any::<bool>()).prop_map(
        |(base, amount, scope, refund, [least, most, from, below], owed_unsold)| Charge {
            scope,
            least,
            most,
            when: When {
                from,
                below,
                ..When::default()
            },
            owed_unsold,
            refund,
            ..Charge::new("Charge", base, amount)
        },
    )
}

fn schedules() -> impl Strategy<Value = Schedule> {
    let group = (places(), of(amounts()), of(amounts()));
    let group = group.prop_map(|(charges, least, most)| Group {
        label: String::new(),
        charges,
        least,
        most,
    });
    (vec(charges(), 0..20), vec(group, 0..4))
        .prop_map(|(charges, groups)| Schedule { charges, groups })
}

proptest! {
    #![proptest_config(crate::tries(256))]

    #[test]
    fn whatever_can_be_read_has_a_sum(
        schedule in schedules(),
        [price, post_in, running, target] in [amounts(), amounts(), amounts(), amounts()],
        tax in of(amounts()),
    ) {
        let text = serde_json::to_string(&schedule).unwrap();
        prop_assert_eq!(&serde_json::from_str::<Schedule>(&text).unwrap(), &schedule);
        let sale = Sale { tax, running, ..Sale::of(price, post_in) };
        prop_assert_eq!(settle(&schedule, &sale).payout, payout(&schedule, &sale));
        let _ = (unsold(&schedule, &sale), monthly(&schedule), refund(&schedule, &sale));
        let _ = (schedule.check().map_err(|fault| fault.to_string()), schedule.tiers_by());
        if let Ok(found) = invert(&schedule, &sale, target) {
            let at = Sale { price: found, ..sale.clone() };
            prop_assert!(payout(&schedule, &at) >= target);
        }
        for zone in dead_zones(&schedule, &sale, Money::MAX) {
            prop_assert!(zone.better < zone.from && zone.from <= zone.to);
        }
    }

    /// Of a schedule that a book takes, any payout that a book can hold.
    #[test]
    fn any_payout_has_its_least_price_or_is_refused(
        schedule in rich_schedules(),
        facts in facts(),
        target in amounts(),
    ) {
        let at = |price: Money| Sale { price, ..sale(&facts, 0) };
        if let Ok(price) = invert(&schedule, &at(Money::ZERO), target) {
            prop_assert!(payout(&schedule, &at(price)) >= target);
            let under = price.minus(Money::new(1));
            prop_assert!(price.is_zero() || payout(&schedule, &at(under)) < target);
        }
    }
}
