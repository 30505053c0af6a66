//! The natural order of names.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::natural::natural_order;

fn check(sorted: &[&str]) {
    let mut names = sorted.to_vec();
    names.reverse();
    names.sort_by(|one, other| natural_order(one, other));
    assert_eq!(names, sorted);
}

/// natsort 8.4.0 (R): bins, and zones and places with several numbers.
#[test]
fn numbers_in_names_count_as_numbers() {
    check(&["A1", "A1-2", "A1-10", "A2", "A10", "B1"]);
    check(&["Zone 1", "Zone 2", "Zone 10"]);
    check(&["K2", "K12", "Shelf 2-1", "Shelf 2-10", "Shelf 10-1"]);
}
