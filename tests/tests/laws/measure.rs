//! Laws of sizes and of the natural order.

use std::cmp::Ordering;

use haulwren_core::measure::MeasureError;
use haulwren_core::measure::{Direction, LengthUnit, ParcelSize, Weight, WeightUnit, whole_steps};
use haulwren_core::money::{Currency, MoneyError, Rate, parse};
use haulwren_core::natural::natural_order;
use haulwren_core::number;
use proptest::prelude::*;

fn weights() -> impl Strategy<Value = Weight> {
    let units = prop::sample::select(
        &[
            WeightUnit::Ounce,
            WeightUnit::Pound,
            WeightUnit::Gram,
            WeightUnit::Kilogram,
        ][..],
    );
    (0_u128..=1_000_000_0000, units)
        .prop_map(|(count, unit)| Weight::from_ten_thousandths(count, unit).unwrap())
}

proptest! {
    #![proptest_config(crate::tries(1024))]

    #[test]
    fn a_size_reads_back(text in "[0-9]{1,2}(\\.[0-9]{1,4})? ?(in|cm|mm)? ?x[0-9]{1,2} ?(in|cm|mm)?x[1-9] ?(in|cm|mm)") {
        if let Ok(size) = text.parse::<ParcelSize>() {
            prop_assert_eq!(size.to_string().parse::<ParcelSize>(), Ok(size));
        }
    }

    #[test]
    fn no_text_at_all_breaks_a_size(text in any::<String>()) {
        if let Ok(size) = text.parse::<ParcelSize>() {
            prop_assert!(size.volume() > 0);
        }
    }

    /// A box goes into another when some turn of it does: all six are tried here.
    #[test]
    fn a_box_turns_six_ways(inner in [1_u16..30, 1_u16..30, 1_u16..30], outer in [1_u16..30, 1_u16..30, 1_u16..30]) {
        let size = |[a, b, c]: [u16; 3]| ParcelSize::inches(a, b, c);
        let turns = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];
        let fits = turns.iter().any(|turn| (0..3).all(|axis| inner[turn[axis]] <= outer[axis]));
        prop_assert_eq!(size(inner).fits_in(size(outer)), fits);
        let inch = haulwren_core::measure::Length::whole(1, LengthUnit::Inch).ticks();
        let [a, b, c] = inner.map(u64::from);
        prop_assert_eq!(size(inner).length_and_girth(), (2 * (a + b + c) - a.max(b).max(c)) * inch);
    }

    #[test]
    fn ticks_are_grams(weight in weights(), other in weights()) {
        let exact = weight.grams().cmp(&other.grams());
        prop_assert_eq!(weight.ticks().cmp(&other.ticks()), exact);
    }

    #[test]
    fn a_sum_of_weights_is_never_short(one in weights(), two in weights()) {
        if let Ok(sum) = Weight::sum(&[one, two]) {
            let exact = one.ticks() + two.ticks();
            prop_assert!(sum.ticks() >= exact);
            let finest = Weight::from_ten_thousandths(1, sum.unit()).unwrap().ticks();
            prop_assert!(sum.ticks() - exact < finest);
            if one.unit().small() == two.unit().small() {
                prop_assert_eq!(sum.ticks(), exact);
            }
        }
    }

    #[test]
    fn steps_hem_a_measure_in(size in 0_u128..1_000_000, step in 1_u128..5_000) {
        let up = whole_steps(size, step, Direction::Up);
        prop_assert!(up * step >= size && up * step < size + step);
        let near = whole_steps(size, step, Direction::Nearest) * step;
        prop_assert!(2 * near.abs_diff(size) <= step);
        prop_assert!(2 * near.abs_diff(size) < step || near > size);
    }

    #[test]
    fn the_natural_order_is_an_order(a in "[aAb012 -]{0,6}", b in "[aAb012 -]{0,6}", c in "[aAb012 -]{0,6}") {
        prop_assert_eq!(natural_order(&a, &b), natural_order(&b, &a).reverse());
        prop_assert_eq!(natural_order(&a, &b) == Ordering::Equal, a == b);
        if natural_order(&a, &b) != Ordering::Greater && natural_order(&b, &c) != Ordering::Greater {
            prop_assert_ne!(natural_order(&a, &c), Ordering::Greater);
        }
    }

    #[test]
    fn numbers_at_the_end_count(name in "[a-z]{0,4}", one in any::<u64>(), two in any::<u64>()) {
        prop_assert_eq!(natural_order(&format!("{name}{one}"), &format!("{name}{two}")), one.cmp(&two));
    }
}

/// Texts such as people type, with points, commas, gaps and other signs.
const TYPED: &str = "[-]?[0-9]{0,4}[., '\u{2019}\u{a0}]?[0-9]{0,4}[.,]?[0-9]{0,3}[a-z$]?";

proptest! {
    #![proptest_config(crate::tries(4096))]

    /// One reader of numbers: what it refuses, no amount, share or measure is read from; and what it reads means the same to all.
    #[test]
    fn one_reader_reads_every_number(text in TYPED) {
        let usd = Currency::from_code("USD").unwrap();
        let kwd = Currency::from_code("KWD").unwrap();
        let weight = |unit: &str| format!("{text} {unit}").parse::<Weight>();
        match number::read(&text) {
            Err(refusal) => {
                prop_assert!(parse(&text, usd).is_err() && parse(&text, kwd).is_err());
                prop_assert!(Rate::parse(&text).is_err() && weight("kg").is_err(), "{text}");
                prop_assert!(!refusal.to_string().contains("units"));
            }
            Ok(read) => {
                let exact: rust_decimal::Decimal = read.text().parse().unwrap();
                if let Ok(amount) = parse(&text, kwd) {
                    prop_assert_eq!(rust_decimal::Decimal::new(amount.minor(), 3), exact);
                }
                if let Ok(rate) = Rate::parse(&text) {
                    prop_assert_eq!(rate.as_decimal(), exact);
                }
                if let Ok(weight) = weight("kg") {
                    prop_assert_eq!(weight.amount(), exact);
                }
            }
        }
    }

    /// A group of three after a comma is never decimals, and a gap never ends a number.
    #[test]
    fn thousands_are_never_decimals(thousands in 1_u32..1000, rest in 0_u32..1000, unit in prop::sample::select(vec!["g", "kg", "oz", "lb"])) {
        let comma = format!("{thousands},{rest:03} {unit}").parse::<Weight>();
        prop_assert_eq!(comma, Err(MeasureError::TwoWays));
        let gap = format!("{thousands} {rest:03} {unit}").parse::<Weight>();
        prop_assert_eq!(gap, Err(MeasureError::Gap));
        let usd = Currency::from_code("USD").unwrap();
        prop_assert_eq!(parse(&format!("{thousands},{rest:03}"), usd), Err(MoneyError::TwoWays));
    }
}
