//! The table of kinds: names, types, rules. Nothing in it may change or go, only come.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::book::{DECLARED, rule};
use haulwren_core::change::{GONE, Rule};

#[test]
fn the_table_of_kinds_is_the_golden_one() {
    let lines = DECLARED.iter().map(|(kind, field, of, rule, since)| {
        let of: String = of.split_whitespace().collect();
        format!("{kind} {field} {of} {rule} {since}\n")
    });
    crate::golden!("kinds.txt", &lines.collect::<String>());
}

#[test]
fn the_table_says_the_rule_that_folding_goes_by() {
    for (kind, field, _, said, _) in DECLARED {
        let found = match rule(kind, field) {
            Rule::Dispute => "Dispute",
            Rule::Latest => "Latest",
        };
        assert_eq!(found, *said, "{kind} {field}");
        assert_eq!(rule(kind, GONE), Rule::Dispute, "{kind}");
    }
    // What this version does not know is never decided for the trader.
    assert_eq!(rule("thing", "smell"), Rule::Dispute);
    assert_eq!(rule("sermon", "name"), Rule::Dispute);
}
