//! Break-even, markup and margin.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::appraise::{Case, HouseRules, Selling, appraise};
use haulwren_core::money::{Currency, Money, Rate, percent_of};
use haulwren_core::postage::Arrangement;
use haulwren_core::terms::{Base, Charge, Sale, Schedule, invert, payout};
use haulwren_core::worth::{Allowances, Sells};

/// `OpenStax` *Managerial Accounting* 3.1 and 3.2, Hicks (S, R): price 100, variable cost 20, fixed cost 18,000. Variable
/// cost is a fifth of the price, so sales of 22,500 (225 units) break even and 42,500 (425 units) leave 16,000.
#[test]
fn sales_that_break_even_are_the_least_price_that_pays_the_fixed_cost() {
    let fifth = Schedule::of(vec![Charge::percent(
        "Variable cost",
        Rate::percent(20),
        Base::Price,
    )]);
    let sales = |fixed_and_profit| invert(&fifth, &Sale::default(), Money::new(fixed_and_profit));
    assert_eq!(sales(18_000_00), Ok(Money::new(22_500_00)));
    assert_eq!(sales(18_000_00 + 16_000_00), Ok(Money::new(42_500_00)));
    // And by the unit: each of the 225 has to leave 80 of its price.
    let each = Schedule::of(vec![Charge::flat("Variable cost", Money::new(20_00))]);
    assert_eq!(
        invert(&each, &Sale::default(), Money::new(18_000_00 / 225)),
        Ok(Money::new(100_00))
    );
    assert_eq!(
        payout(&each, &Sale::of(Money::new(100_00), Money::ZERO)),
        Money::new(80_00)
    );
}

/// Nothing is known of how things usually sell.
const USUAL: &haulwren_core::terms::Usual = &haulwren_core::terms::Usual {
    promoted: None,
    regions: haulwren_core::terms::Regions(Vec::new()),
    monthly: None,
};

/// What a plain sale keeps: nobody takes a cut, nothing is posted or set aside.
fn kept(price: i64, cost: i64) -> Money {
    let nothing = Schedule::default();
    let currency = Currency::from_code("USD").unwrap();
    let case = Case {
        kind: None,
        weight: None,
        currency,
        ask: Some(Money::new(cost)),
        sells: Some(Sells::new(None, Money::new(price), None).unwrap()),
        venue: Some(Selling {
            arrangement: &Arrangement::HandedOver,
            schedule: &nothing,
            usual: USUAL,
        }),
        postage: None,
        packing: Money::ZERO,
        work: Money::ZERO,
        premium: haulwren_core::money::Rate::ZERO,
        allowances: Allowances::NONE,
        rules: HouseRules::starting(currency),
    };
    appraise(&case).judged.unwrap().keep()
}

/// IRS Publication 334 (S): receipts 300,000 and cost of goods 200,000 leave a third of sales, which is 50 % on cost.
#[test]
fn a_third_of_sales_is_half_on_cost() {
    let keep = kept(300_000_00, 200_000_00);
    assert_eq!(keep.minor() * 3, 300_000_00);
    assert_eq!(keep, percent_of(Money::new(200_000_00), Rate::percent(50)));
}

/// The ladder of markup and margin (R): 25 on cost is 20 of the price, 50 is a third, 100 is 50, 300 is 75.
#[test]
fn markup_on_cost_and_margin_of_price_go_together() {
    let cost = Money::new(100_00);
    for (markup, price, margin) in [(25, 125_00, 20), (100, 200_00, 50), (300, 400_00, 75)] {
        let keep = kept(price, cost.minor());
        assert_eq!(keep.minor() * 100, cost.minor() * markup, "markup {markup}");
        assert_eq!(
            keep,
            percent_of(Money::new(price), Rate::percent(margin)),
            "margin {margin}"
        );
    }
    assert_eq!(kept(150_00, cost.minor()).minor() * 3, 150_00);
}
