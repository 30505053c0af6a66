//! Every kind that is declared has its words.

use super::describe;
use super::kit::Kit;
use crate::book::Look;
use crate::change::tests::change;
use crate::kind::RecordKind;
use serde_json::Value;

#[test]
fn every_kind_is_called_something_and_has_a_page_or_a_reason_for_none() {
    for kind in RecordKind::ALL {
        let declared = kind.declared().expect("it is declared");
        let words = [declared.nameless, declared.one, declared.several];
        assert!(words.iter().all(|word| !word.is_empty()), "{kind}");
        assert_ne!(declared.one, declared.several, "{kind}");
        assert!(declared.nameless.starts_with(char::is_uppercase), "{kind}");
        assert_ne!(declared.look, Look::Elsewhere(""), "{kind}");
        assert!(!declared.fields.is_empty(), "{kind}");
        for field in declared.fields {
            assert!(field.label.starts_with(char::is_uppercase), "{kind}");
        }
    }
}

/// What a save is called that clears the first two fields of a record.
fn sentence(kind: &RecordKind) -> String {
    let mut change = change("abcdefgh", 1, &[]);
    change.kind = kind.clone();
    for field in kind.fields().iter().take(2) {
        change.set.insert(field.name.to_owned(), Value::Null);
    }
    let done = describe(&Kit::begun().state, &[change]);
    done.expect("a save").sentence
}

#[test]
fn every_kind_has_a_sentence_for_its_saves_and_what_is_not_known_was_saved() {
    for kind in RecordKind::ALL {
        assert_ne!(sentence(kind), "Saved", "{kind}");
        let are_rules = sentence(kind) == "House rules saved";
        assert_eq!(are_rules, *kind == RecordKind::Rules, "{kind}");
    }
    assert_eq!(sentence(&RecordKind::from("sermon")), "Saved");
}
