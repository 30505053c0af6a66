//! Splitting by largest remainder.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::money::{Money, split};

/// A total split by weights, in minor units.
pub fn check(total: i64, weights: &[u64], expected: &[i64]) {
    let parts: Vec<i64> = split(Money::new(total), weights)
        .into_iter()
        .map(Money::minor)
        .collect();
    assert_eq!(parts, expected, "{total} by {weights:?}");
}

/// The House of Representatives by the census of 1790, 60 seats (S; R with apportionment 1.0).
#[test]
fn sixty_seats_are_shared_out_by_the_census_of_1790() {
    check(
        60,
        &[
            630_560, 475_327, 432_879, 353_523, 331_589, 278_514, 236_841, 206_236, 179_570,
            141_822, 85_533, 70_835, 68_705, 68_446, 55_540,
        ],
        &[11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1],
    );
}

/// Weights 6 6 2 (R with apportionment 1.0): raising a total can take a unit from one part. Known and accepted.
#[test]
fn a_greater_total_can_take_a_unit_from_one_part() {
    check(10, &[6, 6, 2], &[4, 4, 2]);
    check(11, &[6, 6, 2], &[5, 5, 1]);
}

/// Common practice, no source: three for 20.00 is 6.67 each, so one carries 6.66.
#[test]
fn three_for_twenty_leaves_one_a_cent_short() {
    check(20_00, &[1, 1, 1], &[6_67, 6_67, 6_66]);
}
