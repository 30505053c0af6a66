//! What a sale's charges come to, form by form.

use super::*;

#[test]
fn each_charge_is_rounded_once_and_on_its_own() {
    let check = |charges, price, post_in, lines: &[i64]| {
        check(&Schedule::of(charges), &sale(price, post_in), lines);
    };
    let ten = || percent("10", Base::Price);
    check(
        vec![percent("10", Base::PriceAndPost), flat(25)],
        26_00,
        4_50,
        &[3_05, 25],
    );
    check(vec![ten()], 26_00, 4_50, &[2_60]);
    check(vec![percent("15", Base::Price)], 26_00, 0, &[3_90]);
    // 5 minor units at 10 % twice: a unit each, where 20 % at once would also be one.
    check(vec![ten(), ten()], 5, 0, &[1, 1]);
    check(vec![], 15_00, 0, &[]);
    check(vec![flat(25)], 0, 0, &[25]);
}

#[test]
fn an_order_total_holds_the_tax_assumed_or_known() {
    let schedule = Schedule::of(vec![percent("10", Base::OrderTotal(rate("8.25")))]);
    // 30.50 and 8.25 % of it are 33.01625: a tenth is 3.301625.
    check(&schedule, &sale(26_00, 4_50), &[3_30]);
    let known = Sale {
        tax: Some(m(3_00)),
        ..sale(26_00, 4_50)
    };
    check(&schedule, &known, &[3_35]);
    let none = Sale {
        tax: Some(m(0)),
        ..sale(26_00, 4_50)
    };
    check(&schedule, &none, &[3_05]);
    // 0.50 and 10 % of it are 0.55, and a tenth of that 0.055: rounded once. Had the tax of a 4 cent sale, 0.4, been rounded
    // away first, 50 % of the rest would be 2.
    let twice = |rate_| Schedule::of(vec![percent(rate_, Base::OrderTotal(rate("10")))]);
    check(&twice("10"), &sale(50, 0), &[6]);
    check(&twice("60"), &sale(4, 0), &[3]);
}

#[test]
fn a_bracket_takes_the_whole_amount_and_a_slice_its_own() {
    let table = [(0, "10", 0), (50_00, "6", 0), (100_00, "2", 1_00)];
    let bracket = |price, line| {
        check(
            &Schedule::of(vec![brackets(&table)]),
            &sale(price, 0),
            &[line],
        );
    };
    bracket(49_99, 5_00);
    bracket(50_00, 3_00);
    bracket(99_99, 6_00);
    bracket(100_00, 3_00);
    let slice = |price, line| {
        check(
            &Schedule::of(vec![slices(&table)]),
            &sale(price, 0),
            &[line],
        );
    };
    slice(50_00, 5_00);
    slice(50_01, 5_00);
    slice(60_00, 5_60);
    slice(100_00, 8_00);
    // The flat sum comes with the first cent in the slice.
    slice(100_01, 9_00);
    slice(200_00, 11_00);
    // Under the first step nothing is owed.
    let late = Schedule::of(vec![
        brackets(&[]),
        slices(&[(10_00, "50", 30)]),
        brackets(&[(10_00, "0", 30)]),
    ]);
    check(&late, &sale(9_99, 0), &[0, 0, 0]);
    check(&late, &sale(10_00, 0), &[0, 0, 30]);
    check(&late, &sale(10_02, 0), &[0, 31, 30]);
}

#[test]
fn a_tier_goes_by_the_sales_before_this_one() {
    let tiers = Amount::Tiers {
        by: Period::Month,
        steps: steps(&[(0, "12", 0), (1000_00, "9", 0), (5000_00, "6", 10)]),
    };
    let schedule = Schedule::of(vec![Charge::new("Tiers", Base::Price, tiers)]);
    assert_eq!(schedule.tiers_by(), Some(Period::Month));
    let at = |running, line| {
        let sale = Sale {
            running: m(running),
            ..sale(100_00, 0)
        };
        check(&schedule, &sale, &[line]);
    };
    at(0, 12_00);
    at(999_99, 12_00);
    at(1000_00, 9_00);
    at(5000_00, 6_10);
}

#[test]
fn tax_on_fees_is_of_the_fees_as_charged() {
    let charges = vec![
        percent("10", Base::Price),
        flat(30),
        of_charges("20", &[1, 2]),
    ];
    check(
        &Schedule::of(charges.clone()),
        &sale(25_00, 0),
        &[2_50, 30, 56],
    );
    // The group's most makes 2.00 of the 2.80, and the tax is of that.
    let capped = Schedule {
        charges,
        groups: vec![group(&[1, 2], None, Some(2_00))],
    };
    check(&capped, &sale(25_00, 0), &[2_50, 30, 40, -80]);
}

#[test]
fn least_and_most_hold_for_one_charge_and_for_several_together() {
    let limited = Charge {
        least: Some(m(50)),
        most: Some(m(5_00)),
        ..percent("10", Base::Price)
    };
    let schedule = Schedule::of(vec![limited]);
    for (price, line) in [
        (0, 50),
        (5_00, 50),
        (5_10, 51),
        (50_00, 5_00),
        (99_00, 5_00),
    ] {
        check(&schedule, &sale(price, 0), &[line]);
    }
    let schedule = Schedule {
        charges: vec![percent("10", Base::Price), percent("5", Base::Price)],
        groups: vec![group(&[1, 2], Some(1_00), Some(6_00))],
    };
    check(&schedule, &sale(4_00, 0), &[40, 20, 40]);
    check(&schedule, &sale(20_00, 0), &[2_00, 1_00]);
    check(&schedule, &sale(60_00, 0), &[6_00, 3_00, -3_00]);
}

#[test]
fn a_charge_holds_when_all_its_conditions_are_met() {
    let when = When {
        from: Some(m(10_00)),
        below: Some(m(20_00)),
        kinds: vec![kind(1), kind(2)],
        promoted: Some(true),
        regions: vec!["North".to_owned()],
    };
    let schedule = Schedule {
        charges: vec![Charge { when, ..flat(30) }],
        // A group of which nothing holds has no least.
        groups: vec![group(&[1], Some(40), None)],
    };
    let met = Sale {
        kind: Some(kind(2)),
        promoted: true,
        region: Some("NORTH".to_owned()),
        ..sale(10_00, 0)
    };
    check(&schedule, &met, &[30, 10]);
    check(
        &schedule,
        &Sale {
            price: m(19_99),
            ..met.clone()
        },
        &[30, 10],
    );
    for unmet in [
        Sale {
            price: m(9_99),
            ..met.clone()
        },
        Sale {
            price: m(20_00),
            ..met.clone()
        },
        Sale {
            kind: Some(kind(3)),
            ..met.clone()
        },
        Sale {
            kind: None,
            ..met.clone()
        },
        Sale {
            promoted: false,
            ..met.clone()
        },
        Sale {
            region: Some("South".to_owned()),
            ..met.clone()
        },
        Sale {
            region: None,
            ..met.clone()
        },
    ] {
        check(&schedule, &unmet, &[]);
    }
}
