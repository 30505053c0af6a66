//! Rounding, against regulations and standards.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::money::{Money, Rate, half_away, percent_of};
use rust_decimal::Decimal;

fn check(value: &str, decimals: u32, expected: &str) {
    let decimal = |text: &str| -> Decimal { text.parse().unwrap() };
    assert_eq!(
        half_away(decimal(value), decimals),
        decimal(expected),
        "{value}"
    );
}

/// Council Regulation (EC) 1103/97, article 5 (S): exactly half goes up.
#[test]
fn half_a_cent_goes_up_as_the_regulation_says() {
    check("24.784", 2, "24.78");
    check("24.785", 2, "24.79");
    // The same two amounts as they arise from a percentage: 40 % of 61.96 is 24.784, 50 % of 49.57 is 24.785.
    assert_eq!(
        percent_of(Money::new(61_96), Rate::percent(40)),
        Money::new(24_78)
    );
    assert_eq!(
        percent_of(Money::new(49_57), Rate::percent(50)),
        Money::new(24_79)
    );
}

/// ISO 80000-1, annex B (M, R with Python's decimal 3): by rule B, which is ours, 12.25 gives 12.3; 12.35 gives 12.4;
/// rounded once, 12.251 gives 12.3.
#[test]
fn one_decimal_is_rounded_by_rule_b_of_the_standard() {
    check("12.25", 1, "12.3");
    check("12.35", 1, "12.4");
    check("12.251", 1, "12.3");
}

/// Two places, half away from zero (R with Python's decimal 3).
#[test]
fn two_places_are_rounded_half_away_from_zero() {
    check("0.005", 2, "0.01");
    check("1.005", 2, "1.01");
    check("2.675", 2, "2.68");
    check("-0.025", 2, "-0.03");
}
