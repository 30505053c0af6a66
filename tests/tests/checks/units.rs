//! Units of weight and length.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::measure::{Length, Weight};
use haulwren_core::money::product;
use rust_decimal::Decimal;

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn grams(text: &str) -> Decimal {
    text.parse::<Weight>().unwrap().grams()
}

/// NIST SP 811, appendix B.8 (M): lb 453.59237 g, oz 28.349523125 g.
#[test]
fn pounds_and_ounces_are_exact() {
    assert_eq!(grams("1 lb"), decimal("453.59237"));
    assert_eq!(grams("1 oz"), decimal("28.349523125"));
    assert_eq!(grams("16 oz"), grams("1 lb"));
    assert_eq!(grams("1 lb") + grams("9 oz"), decimal("708.738078125"));
    assert_eq!(grams("25 oz"), decimal("708.738078125"));
    assert_eq!(grams("1 kg"), grams("1000 g"));
}

/// NIST SP 811, appendix B.8 (M): in 2.54 cm, in³ 16.387064 cm³.
#[test]
fn inches_are_exact_in_length_and_in_volume() {
    let inch = "1 in".parse::<Length>().unwrap().millimetres();
    assert_eq!(inch, "2.54 cm".parse::<Length>().unwrap().millimetres());
    let cubic = product(inch, inch).and_then(|square| product(square, inch));
    assert_eq!(cubic, Some(decimal("16387.064")), "cubic millimetres");
}
