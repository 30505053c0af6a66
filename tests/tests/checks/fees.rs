//! Fees: a flat sum with a share, tax on fees, fees on an order's total, and the price that leaves a margin.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{Amount, Base, Charge, Positions, Sale, Schedule, invert, settle};

use crate::terms::{check, of_price, sale, steps};

/// 12 CFR 235.3(b) (M): an interchange fee of at most 21 cents and 0.05 % of the transaction, on one of 38.00 22.9 cents: in
/// whole cents 23, rounded once.
#[test]
fn a_flat_sum_and_a_share_in_one_charge_are_rounded_once() {
    let fee = Amount::Brackets(steps(&[(0, "0.05", 21)]));
    check(
        &Schedule::of(vec![of_price(fee)]),
        &[(38_00, 23), (10_00, 22), (9_99, 21), (0, 21)],
    );
}

/// Directive 2006/112/EC article 73 (M): the tax is on all that is paid for the service, so on a venue's fees together. Fees
/// with tax at 20 % hold a sixth of tax (the fraction in HMRC VAT Notice 700; M), and at 23 % 23 parts of 123 (R).
#[test]
fn tax_on_fees_is_the_known_fraction_of_fees_with_tax() {
    for (rate, over, under) in [(20_u32, 1, 6), (25, 1, 5), (23, 23, 123)] {
        let fees = Positions::of(&[1, 2]).unwrap();
        let schedule = Schedule::of(vec![
            Charge::percent("Fee", Rate::percent(12), Base::PriceAndPost),
            Charge::flat("Order", Money::new(3_00)),
            Charge::percent("Tax on fees", Rate::percent(rate), Base::Charges(fees)),
        ]);
        let settled = settle(&schedule, &Sale::of(Money::new(60_00), Money::new(15_00)));
        assert_eq!(
            settled.lines[2].amount.minor(),
            12_00 * i64::from(rate) / 100
        );
        assert_eq!(
            settled.lines[2].amount.minor() * under,
            settled.cut.minor() * over
        );
    }
}

/// Sales tax of 8.25 % (Texas Tax Code: 6.25 % of the state by 151.051, at most 2 % local by 321.101; M): 100.00 comes to
/// 108.25, and a fee of a tenth of that is 10.825, half away from nothing 10.83. Where the tax is known, by that.
#[test]
fn a_fee_on_the_order_total_takes_its_part_of_the_tax() {
    let assumed = Rate::parse("8.25").unwrap();
    let fee = Charge::percent("Fee", Rate::percent(10), Base::OrderTotal(assumed));
    let schedule = Schedule::of(vec![fee]);
    check(&schedule, &[(100_00, 10_83)]);
    let known = Sale {
        tax: Some(Money::new(6_25)),
        ..sale(100_00)
    };
    assert_eq!(settle(&schedule, &known).cut, Money::new(10_63));
}

/// The ladder of markup and margin (R): what costs 100 and leaves 20 % of its price sells at 125, 50 % at 200, 75 % at 400;
/// and IRS Publication 334 (S): a third of 300,000 is left over a cost of 200,000.
#[test]
fn the_price_that_leaves_a_margin_over_cost() {
    for (margin, cost, price) in [
        ("20", 100_00, 125_00),
        ("50", 100_00, 200_00),
        ("75", 100_00, 400_00),
        ("33.3333", 200_000_00, 299_999_85),
    ] {
        let share = Charge::percent("Margin", Rate::parse(margin).unwrap(), Base::Price);
        let found = invert(
            &Schedule::of(vec![share]),
            &Sale::default(),
            Money::new(cost),
        );
        let found = found.unwrap().minor();
        // The least price may round a unit the seller's way.
        assert!((price - 1..=price).contains(&found), "{margin}: {found}");
    }
}
