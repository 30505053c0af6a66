//! Undo: a new save that gives back what an earlier one replaced, field by field, where the earlier one still has the last word.

use super::kinds::{Book, rule};
use super::refusal::Refusal;
use super::table::Edits;
use crate::change::{Change, Fields, GONE, fold};
use serde_json::Value;

/// What undoes one save.
///
/// `save` holds the save's changes; `history` all changes of the records that they touch, those of the save included.
///
/// # Errors
/// [`Refusal::BeginningStays`] for the save that began the book; [`Refusal::NothingToUndo`] when later changes set every field that the
/// save set, or took away or brought back what it made.
pub fn undo(save: &[Change], history: &[Change]) -> Result<Vec<Edits>, Refusal> {
    if save.iter().any(|change| change.kind == Book::KIND) {
        return Err(Refusal::BeginningStays);
    }
    let edits: Vec<Edits> = save
        .iter()
        .filter_map(|change| undo_change(change, save, history))
        .collect();
    if edits.is_empty() {
        Err(Refusal::NothingToUndo)
    } else {
        Ok(edits)
    }
}

fn undo_change(change: &Change, save: &[Change], history: &[Change]) -> Option<Edits> {
    let in_save = |other: &&Change| save.iter().any(|own| own.key == other.key);
    let others: Vec<&Change> = history
        .iter()
        .filter(|other| other.id == change.id && other.kind == change.kind)
        .filter(|other| !in_save(other))
        .collect();
    let has_last_word = |field: &str| {
        !others
            .iter()
            .any(|other| other.set.contains_key(field) && !change.knows(other))
    };
    let record = change.record();
    // A record that a book holds once has no beginning, only fields; nor has one that every book knows (see `starter`).
    let is_known = record.id.is_nil() || record.id.get_version_num() == 8;
    let made_it = !is_known && !others.iter().any(|other| change.knows(other));
    if made_it {
        // It goes as a whole, what was said of it since included, and its fields stay on record.
        let mut set = Fields::new();
        set.insert(GONE.to_owned(), Value::Bool(true));
        return has_last_word(GONE).then_some(Edits { record, set });
    }
    let before = fold(others.iter().copied(), |field| rule(&change.kind, field));
    let mut set = Fields::new();
    for field in change.set.keys() {
        if has_last_word(field) {
            let value = before.values.get(field).cloned().unwrap_or(Value::Null);
            set.insert(field.clone(), value);
        }
    }
    (!set.is_empty()).then_some(Edits { record, set })
}
