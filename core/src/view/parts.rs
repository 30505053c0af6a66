//! What fields of records are called on screen, and which of them say something to people.

use crate::change::GONE;
use crate::kind::RecordKind;

/// What a field of a kind is called on screen, as it is declared.
pub(super) fn label(kind: &RecordKind, field: &str) -> String {
    if field == GONE {
        return "Taken out".to_owned();
    }
    match kind.field(field) {
        Some(declared) => declared.label.to_owned(),
        None => field.replace('_', " "),
    }
}

/// Whether a field says something to people of what a file brings; links between records and times do not.
pub(super) fn is_shown(kind: &RecordKind, field: &str) -> bool {
    !matches!(
        (kind, field),
        (RecordKind::Thing, "lot" | "kind") | (RecordKind::Lot, "bought" | "stop")
    )
}
