//! One cost over several things, by the sharing that lots use.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::lot::{Method, Piece, allocate};
use haulwren_core::measure::{Quantity, WeightUnit};
use haulwren_core::money::Money;

fn check(total: i64, method: Method, pieces: &[Piece], expected: &[i64]) {
    let split = allocate(Money::new(total), method, pieces, 0);
    let shares: Vec<i64> = split
        .shares
        .iter()
        .map(|share| share.amount.minor())
        .collect();
    assert_eq!((shares.as_slice(), split.by), (expected, method));
    assert_eq!(split.not_yet_shared, Money::ZERO);
}

fn priced(price: i64) -> Piece {
    Piece {
        price: Some(Money::new(price)),
        ..Piece::default()
    }
}

fn keeping(price: i64, further_cost: i64) -> Piece {
    Piece {
        keep: Some(Money::new(price - further_cost)),
        ..Piece::default()
    }
}

fn weighing(amount: u16, unit: WeightUnit) -> Piece {
    Piece {
        weight: Some(Quantity::whole(amount, unit)),
        ..Piece::default()
    }
}

/// `OpenStax` *Managerial Accounting* 10.5, Calcion (inputs S, outputs R): 25 lb that sell at 150 and 75 lb at 125, by weight, then by
/// sales value.
#[test]
fn a_joint_cost_over_two_products_by_weight_and_by_value() {
    let [light, heavy] = [25, 75].map(|pounds| weighing(pounds, WeightUnit::Pound));
    check(
        36_000_00,
        Method::ByWeight,
        &[light, heavy],
        &[9_000_00, 27_000_00],
    );
    // In ounces it is the same weight.
    let light = weighing(25 * 16, WeightUnit::Ounce);
    check(
        36_000_00,
        Method::ByWeight,
        &[light, heavy],
        &[9_000_00, 27_000_00],
    );
    let pieces = [priced(25 * 150_00), priced(75 * 125_00)];
    check(36_000_00, Method::ByPrice, &pieces, &[10_285_71, 25_714_29]);
}

/// The same, Strawberry (inputs S, outputs R): by quantity, by sales value, by what is left after further cost.
#[test]
fn a_joint_cost_over_two_products_by_quantity_value_and_net_value() {
    let quantities = [42_000, 4_000].map(|gallons| weighing(gallons, WeightUnit::Kilogram));
    check(
        40_000_00,
        Method::ByWeight,
        &quantities,
        &[36_521_74, 3_478_26],
    );
    let values = [priced(104_500_00), priced(50_500_00)];
    check(40_000_00, Method::ByPrice, &values, &[26_967_74, 13_032_26]);
    let net = [keeping(125_000_00, 8_000_00), keeping(70_000_00, 40_000_00)];
    check(40_000_00, Method::ByKeep, &net, &[31_836_73, 8_163_27]);
}

/// A lump sum with its buying costs, shared by appraised value (S, R). Parts of one purchase carry an equitably apportioned cost (26 CFR
/// 1.61-6, S2), and necessary buying charges belong to it (26 CFR 1.471-3(b), S): extras are shared together with the price.
#[test]
fn a_lump_sum_with_its_buying_costs() {
    let values = [67_200_00, 158_400_00, 254_400_00].map(priced);
    let (paid, extras) = (450_000_00, 5_000_00);
    check(
        paid + extras,
        Method::ByPrice,
        &values,
        &[63_700_00, 150_150_00, 241_150_00],
    );
}

/// IRS Publication 551 (M): a cost of 22,500 over 15 equal pieces is 1,500 each.
#[test]
fn equal_pieces_carry_equal_cost() {
    check(
        22_500_00,
        Method::Evenly,
        &[Piece::default(); 15],
        &[1_500_00; 15],
    );
}

/// Common practice, no source: three for 20.00 is 6.67 each, so one carries 6.66, whatever the way of sharing when nothing tells them
/// apart.
#[test]
fn three_for_twenty_leave_one_a_cent_short() {
    let shares = [6_67, 6_67, 6_66];
    check(20_00, Method::Evenly, &[Piece::default(); 3], &shares);
    check(20_00, Method::ByPrice, &[priced(9_00); 3], &shares);
    check(20_00, Method::ByKeep, &[keeping(9_00, 1); 3], &shares);
    let alike = [weighing(7, WeightUnit::Ounce); 3];
    check(20_00, Method::ByWeight, &alike, &shares);
}

/// Weights 6 6 2 (R with apportionment 1.0): a dearer lot can cost one of its things a unit less. Known and accepted.
#[test]
fn a_dearer_lot_can_cost_one_thing_less() {
    let pieces = [priced(6), priced(6), priced(2)];
    check(10, Method::ByPrice, &pieces, &[4, 4, 2]);
    check(11, Method::ByPrice, &pieces, &[5, 5, 1]);
}
