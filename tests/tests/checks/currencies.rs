//! How many decimals a currency has.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::money::{Currency, Money, parse, plain};

/// ISO 4217 minor units (R): USD 2, JPY 0, KWD 3. From memory (M): CLF 4, ISK 0, TND 3, EUR 2.
#[test]
fn minor_units_are_those_of_the_standard() {
    let check = |code, exponent, one_and_a_bit: &str, minor| {
        let currency = Currency::from_code(code).unwrap();
        assert_eq!(currency.exponent(), exponent, "{code}");
        assert_eq!(
            parse(one_and_a_bit, currency),
            Ok(Money::new(minor)),
            "{code}"
        );
        assert_eq!(plain(Money::new(minor), currency), one_and_a_bit, "{code}");
    };
    check("USD", 2, "1.01", 101);
    check("JPY", 0, "1", 1);
    check("KWD", 3, "1.001", 1001);
    check("CLF", 4, "1.0001", 10_001);
    check("ISK", 0, "1", 1);
    check("TND", 3, "1.001", 1001);
    check("EUR", 2, "1.01", 101);
}
