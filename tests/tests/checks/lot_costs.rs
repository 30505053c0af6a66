//! One cost over several things, by the split that the sums use.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use crate::splitting::check;

/// `OpenStax` *Managerial Accounting* 10.5, Calcion (inputs S, outputs R): by weight, then by sales value.
#[test]
fn a_joint_cost_over_two_products_by_weight_and_by_value() {
    check(36_000_00, &[25, 75], &[9_000_00, 27_000_00]);
    check(36_000_00, &[25 * 150, 75 * 125], &[10_285_71, 25_714_29]);
}

/// The same, Strawberry (inputs S, outputs R): by quantity, by sales value, by what is left after further cost.
#[test]
fn a_joint_cost_over_two_products_by_quantity_value_and_net_value() {
    check(40_000_00, &[42_000, 4_000], &[36_521_74, 3_478_26]);
    check(40_000_00, &[104_500, 50_500], &[26_967_74, 13_032_26]);
    check(
        40_000_00,
        &[125_000 - 8_000, 70_000 - 40_000],
        &[31_836_73, 8_163_27],
    );
}

/// A lump sum with buying costs, which belong to the cost by 26 CFR 1.471-3(b) (S, R): shares by appraised value.
#[test]
fn a_lump_sum_with_its_buying_costs() {
    check(
        (450_000 + 5_000) * 100,
        &[67_200, 158_400, 254_400],
        &[63_700_00, 150_150_00, 241_150_00],
    );
}

/// IRS Publication 551 (M): a cost of 22,500 over 15 equal pieces is 1,500 each.
#[test]
fn equal_pieces_carry_equal_cost() {
    check(22_500_00, &[1; 15], &[1_500_00; 15]);
}
