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

/// The census of 1790: the fifteen states in the order of their numbers of people, as they counted for the House of Representatives (S).
const OF_1790: [u64; 15] = [
    630_560, 475_327, 432_879, 353_523, 331_589, 278_514, 236_841, 206_236, 179_570, 141_822,
    85_533, 70_835, 68_705, 68_446, 55_540,
];

/// The House of Representatives by the census of 1790 and Hamilton's method: 60 seats (S; R with apportionment 1.0), and 105, as many as
/// the House then got by another method (R).
#[test]
fn seats_are_shared_out_by_the_census_of_1790() {
    check(
        60,
        &OF_1790,
        &[11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1],
    );
    check(
        105,
        &OF_1790,
        &[18, 14, 13, 10, 10, 8, 7, 6, 5, 4, 2, 2, 2, 2, 2],
    );
}

/// The bill of 1792 for 120 seats by Hamilton's method, the first that a President sent back (M; R with apportionment 1.0).
#[test]
fn the_bill_of_1792_shares_out_120_seats() {
    check(
        120,
        &OF_1790,
        &[21, 16, 14, 12, 11, 9, 8, 7, 6, 5, 3, 2, 2, 2, 2],
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
