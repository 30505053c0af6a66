//! Undo: a new save that gives back what an earlier one replaced, field by field, where the earlier one still has the last word.

use super::command::Refusal;
use super::kinds::{Book, rule};
use super::state::Edits;
use super::table::Record;
use crate::change::{Change, fold};
use serde_json::Value;

/// What undoes one save.
///
/// `save` holds the save's changes; `history` all changes of the records that they touch, those of the save included.
///
/// # Errors
/// [`Refusal::BeginningStays`] for the save that began the book; [`Refusal::NothingToUndo`] when later changes set every field that the save set.
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
    let of_record = || {
        history
            .iter()
            .filter(|other| other.id == change.id && other.kind == change.kind)
    };
    let in_save = |other: &&Change| save.iter().any(|own| own.key == other.key);
    let before = fold(of_record().filter(|other| !in_save(other)), |field| {
        rule(&change.kind, field)
    });
    let record = change.record();

    if of_record().all(|other| in_save(&other)) {
        // The save made the record: it goes as a whole, and its fields stay on record.
        return Some(Edits {
            record,
            set: std::iter::once(("gone".to_owned(), Value::Bool(true))).collect(),
        });
    }
    let last_word = |field: &str| {
        !of_record()
            .any(|other| !in_save(&other) && other.set.contains_key(field) && !change.knows(other))
    };
    let set: crate::change::Fields = change
        .set
        .keys()
        .filter(|field| last_word(field))
        .map(|field| {
            (
                field.clone(),
                before.values.get(field).cloned().unwrap_or(Value::Null),
            )
        })
        .collect();
    (!set.is_empty()).then_some(Edits { record, set })
}
