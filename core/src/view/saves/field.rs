//! Saves that only settle a dispute, or go back to an earlier value, of what no screen edits: the field and its value.

use super::super::named::named;
use super::super::parts::label;
use super::super::values::value;
use super::moved;
use crate::book::State;
use crate::change::Change;
use crate::kind::RecordKind;

/// The sentence for one field of a record that is made as a whole; `None` for any other save.
pub(super) fn sentence(state: &State, changes: &[Change]) -> Option<String> {
    let [change] = changes else { return None };
    let kind = &change.kind;
    let is_made_whole = matches!(
        kind,
        RecordKind::Work
            | RecordKind::Worked
            | RecordKind::Passed
            | RecordKind::Photo
            | RecordKind::Cash
    );
    let about = || named(state, &change.record());
    if let (RecordKind::Worked | RecordKind::Device, Some(moved)) = (kind, moved(change)) {
        return Some(format!("{} {moved}", about()));
    }
    let mut fields = change.set.iter();
    match (fields.next(), fields.next()) {
        (Some((field, said)), None) if is_made_whole && field != "gone" => {
            let label = label(kind, field).to_lowercase();
            let words = value(state, kind, field, said);
            Some(format!("{}, {label}: {words}", about()))
        }
        _ => None,
    }
}
