//! The table of kinds: names, types, rules. Nothing in it may change or go, only come.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::book::DeclaredField;
use haulwren_core::change::{GONE, Rule};
use haulwren_core::kind::RecordKind;

/// All fields of all kinds, in their order.
fn declared() -> impl Iterator<Item = (&'static RecordKind, &'static DeclaredField)> {
    let of_kind = |kind: &'static RecordKind| kind.fields().iter().map(move |field| (kind, field));
    RecordKind::ALL.iter().flat_map(of_kind)
}

#[test]
fn the_table_of_kinds_is_the_golden_one() {
    let lines = declared().map(|(kind, field)| {
        let of: String = field.of.split_whitespace().collect();
        let (name, rule, since) = (field.name, field.rule, field.since);
        format!("{kind} {name} {of} {rule:?} {since}\n")
    });
    crate::golden!("kinds.txt", &lines.collect::<String>());
}

#[test]
fn the_table_says_the_rule_that_folding_goes_by() {
    for (kind, field) in declared() {
        assert_eq!(kind.rule(field.name), field.rule, "{kind} {}", field.name);
        assert_eq!(kind.rule(GONE), Rule::Dispute, "{kind}");
    }
    // What this version does not know is never decided for the trader.
    assert_eq!(RecordKind::Thing.rule("smell"), Rule::Dispute);
    assert_eq!(RecordKind::from("sermon").rule("name"), Rule::Dispute);
}
