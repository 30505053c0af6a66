//! Tables of charges against published ones: slices, whole-amount brackets with their notches, limits.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{
    Amount, Base, Charge, Group, Positions, Sale, Schedule, Step, When, dead_zones, invert, payout,
    settle,
};

/// A line of a table: from so many minor units on, a rate in percent, and a flat sum.
pub type Row = (i64, &'static str, i64);

pub fn steps(rows: &[Row]) -> Vec<Step> {
    let step = |(from, percent, flat): &Row| Step {
        from: Money::new(*from),
        percent: Rate::parse(percent).unwrap(),
        flat: Money::new(*flat),
    };
    rows.iter().map(step).collect()
}

pub fn of_price(amount: Amount) -> Charge {
    Charge::new("Charge", Base::Price, amount)
}

pub fn sale(price: i64) -> Sale {
    Sale::of(Money::new(price), Money::ZERO)
}

/// The cut at each price, both in minor units.
pub fn check(schedule: &Schedule, cuts: &[(i64, i64)]) {
    assert_eq!(schedule.check(), Ok(()));
    for (price, cut) in cuts {
        let settled = settle(schedule, &sale(*price));
        assert_eq!(settled.cut.minor(), *cut, "at {price}");
    }
}

/// US income tax of 2024, unmarried persons: the bands of IRS Revenue Procedure 2023-34, section 2.01, table 3.
const INCOME_TAX_2024: [Row; 7] = [
    (0, "10", 0),
    (11_600_00, "12", 0),
    (47_150_00, "22", 0),
    (100_525_00, "24", 0),
    (191_950_00, "32", 0),
    (243_725_00, "35", 0),
    (609_350_00, "37", 0),
];

/// The sums that the same table prints for where each band begins (M: bands and sums from memory; that they agree is the
/// check).
const INCOME_TAX_2024_SO_FAR: [(i64, i64); 6] = [
    (11_600_00, 1_160_00),
    (47_150_00, 5_426_00),
    (100_525_00, 17_168_50),
    (191_950_00, 39_110_50),
    (243_725_00, 55_678_50),
    (609_350_00, 183_647_25),
];

#[test]
fn slices_sum_up_as_the_bands_of_an_income_tax() {
    let bands = Amount::Slices(steps(&INCOME_TAX_2024));
    check(
        &Schedule::of(vec![of_price(bands)]),
        &INCOME_TAX_2024_SO_FAR,
    );
}

/// The same table gives each band as the sum so far and a rate of the excess: what is left of an income at the edge of a
/// band is reached at that edge and at no income below it.
#[test]
fn what_is_left_at_the_edge_of_a_band_is_first_left_there() {
    let bands = Schedule::of(vec![of_price(Amount::Slices(steps(&INCOME_TAX_2024)))]);
    for (income, tax) in INCOME_TAX_2024_SO_FAR {
        let left = Money::new(income - tax);
        assert_eq!(
            invert(&bands, &Sale::default(), left),
            Ok(Money::new(income))
        );
    }
}

/// UK stamp duty land tax on a home from April 2025: the example that the government's page works through, 295,000 (M).
const LAND_TAX_2025: [Row; 5] = [
    (0, "0", 0),
    (125_000_00, "2", 0),
    (250_000_00, "5", 0),
    (925_000_00, "10", 0),
    (1_500_000_00, "12", 0),
];

#[test]
fn slices_sum_up_as_the_bands_of_a_land_tax() {
    let bands = Amount::Slices(steps(&LAND_TAX_2025));
    check(
        &Schedule::of(vec![of_price(bands)]),
        &[(125_000_00, 0), (295_000_00, 4_750_00)],
    );
}

/// The same tax before 4 December 2014 took the whole price at the rate of its bracket (Finance Act 2003 section 55 as it
/// stood then: over 125,000 1 %, over 250,000 3 %, over 500,000 4 %, over 1,000,000 5 %; M).
const LAND_TAX_2013: [Row; 5] = [
    (0, "0", 0),
    (125_000_01, "1", 0),
    (250_000_01, "3", 0),
    (500_000_01, "4", 0),
    (1_000_000_01, "5", 0),
];

#[test]
fn brackets_take_the_whole_price_and_leave_prices_to_skip() {
    let slab = Schedule::of(vec![of_price(Amount::Brackets(steps(&LAND_TAX_2013)))]);
    check(
        &slab,
        &[
            (125_000_00, 0),
            (125_000_01, 1_250_00),
            (250_000_00, 2_500_00),
            // The well-known notch: 5,000 more for one more pound.
            (250_001_00, 7_500_03),
        ],
    );
    // R, by whole numbers: a price over an edge pays as much as the edge itself again at edge × (1 − old) ÷ (1 − new).
    let edges = [
        (125_000_00, 100, 99),
        (250_000_00, 99, 97),
        (500_000_00, 97, 96),
        (1_000_000_00, 96, 95),
    ];
    let zones = dead_zones(&slab, &Sale::default(), Money::new(2_000_000_00));
    assert_eq!(zones.len(), edges.len());
    for (zone, (edge, old, new)) in zones.iter().zip(edges) {
        assert_eq!((zone.better.minor(), zone.from.minor()), (edge, edge + 1));
        // To the nearest unit the tax may round the seller's way: at most a unit of price earlier.
        let again = (edge * old + new - 1) / new;
        let first = zone.to.minor() + 1;
        assert!(first == again || first == again - 1, "{first} {again}");
        let pays = |price| payout(&slab, &sale(price));
        assert!(pays(first) >= pays(edge) && pays(first - 1) < pays(edge));
    }
}

/// Directive 2001/84/EC article 4 (M): the resale right, 4 % of the first 50,000, 3 % to 200,000, 1 % to 350,000, 0.5 % to
/// 500,000, 0.25 % above, at most 12,500 together. Article 3 lets states begin at 3,000.
const RESALE_RIGHT: [Row; 5] = [
    (0, "4", 0),
    (50_000_00, "3", 0),
    (200_000_00, "1", 0),
    (350_000_00, "0.5", 0),
    (500_000_00, "0.25", 0),
];

/// R: the sums at the edges. The most is reached at 2,000,000, as is well known of it (M).
const ROYALTIES: [(i64, i64); 9] = [
    (2_999_99, 0),
    (3_000_00, 120_00),
    (50_000_00, 2_000_00),
    (200_000_00, 6_500_00),
    (350_000_00, 8_000_00),
    (500_000_00, 8_750_00),
    (1_999_600_00, 12_499_00),
    (2_000_000_00, 12_500_00),
    (9_000_000_00, 12_500_00),
];

fn from_three_thousand() -> When {
    When {
        from: Some(Money::new(3_000_00)),
        ..When::default()
    }
}

#[test]
fn a_royalty_by_slices_stops_at_its_most() {
    let royalty = Charge {
        most: Some(Money::new(12_500_00)),
        when: from_three_thousand(),
        ..of_price(Amount::Slices(steps(&RESALE_RIGHT)))
    };
    check(&Schedule::of(vec![royalty]), &ROYALTIES);
}

/// The same, each slice a charge of its own and the most over them all.
#[test]
fn several_charges_together_stop_at_the_most_of_their_group() {
    let mut charges = Vec::new();
    for (at, row) in RESALE_RIGHT.iter().enumerate() {
        let mut rows = vec![*row];
        if let Some((end, ..)) = RESALE_RIGHT.get(at + 1) {
            rows.push((*end, "0", 0));
        }
        charges.push(Charge {
            when: from_three_thousand(),
            ..of_price(Amount::Slices(steps(&rows)))
        });
    }
    let most = Group {
        label: "At most 12,500".to_owned(),
        charges: Positions::of(&[1, 2, 3, 4, 5]).unwrap(),
        least: None,
        most: Some(Money::new(12_500_00)),
    };
    let groups = vec![most];
    check(&Schedule { charges, groups }, &ROYALTIES);
}
