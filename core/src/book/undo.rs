//! Undo: a new save that gives back what an earlier one replaced, field by field, where the earlier one still has the last word.

use super::joining::is_in_every_book;
use super::refusal::Refusal;
use super::table::Edits;
use crate::change::{Change, Fields, GONE, fold};
use crate::kind::RecordKind;
use serde_json::Value;

/// What undoes one save.
///
/// `save` holds the save's changes; `history` all changes of the records that they touch, those of the save included.
///
/// # Errors
/// [`Refusal::BeginningStays`] for a save that began the book or made one of several; [`Refusal::NothingToUndo`] when later changes set
/// every field that the save set, or took away or brought back what it made; [`Refusal::StoodBefore`] when it settled a dispute on what
/// was used meanwhile. A dispute never comes back: whoever undoes it knows both sides. What was not chosen stays in the history.
pub fn undo(save: &[Change], history: &[Change]) -> Result<Vec<Edits>, Refusal> {
    if save.iter().any(|change| change.kind == RecordKind::Book) {
        return Err(Refusal::BeginningStays);
    }
    let undoings = save.iter().map(|change| Undoing::of(change, save, history));
    let undoings: Vec<Undoing<'_>> = undoings.collect();
    let edits: Vec<Edits> = undoings.iter().filter_map(Undoing::edits).collect();
    if !edits.is_empty() {
        Ok(edits)
    } else if undoings.iter().all(Undoing::moved_nothing) {
        Err(Refusal::StoodBefore)
    } else {
        Err(Refusal::NothingToUndo)
    }
}

/// One change of the save, and what else was said of its record.
struct Undoing<'a> {
    change: &'a Change,
    others: Vec<&'a Change>,
}

impl<'a> Undoing<'a> {
    fn of(change: &'a Change, save: &[Change], history: &'a [Change]) -> Self {
        let in_save = |other: &&Change| save.iter().any(|own| own.key == other.key);
        let others = history
            .iter()
            .filter(|other| other.id == change.id && other.kind == change.kind)
            .filter(|other| !in_save(other))
            .collect();
        Self { change, others }
    }

    fn has_last_word(&self, field: &str) -> bool {
        !self
            .others
            .iter()
            .any(|other| other.set.contains_key(field) && !self.change.knows(other))
    }

    /// A record that a book holds once has no beginning, only fields; nor has one that every book knows (see `starter`).
    fn made_it(&self) -> bool {
        let is_known = is_in_every_book(self.change.id);
        !is_known && !self.others.iter().any(|other| self.change.knows(other))
    }

    /// Field by field what stood there before.
    fn before(&self) -> Fields {
        let kind = &self.change.kind;
        let before = fold(self.others.iter().copied(), |field| kind.rule(field));
        let value = |field: &String| before.values.get(field).cloned().unwrap_or(Value::Null);
        let fields = self.change.set.keys();
        fields.map(|field| (field.clone(), value(field))).collect()
    }

    fn edits(&self) -> Option<Edits> {
        let record = self.change.record();
        if self.made_it() {
            // It goes as a whole, what was said of it since included, and its fields stay on record.
            let mut set = Fields::new();
            set.insert(GONE.to_owned(), Value::Bool(true));
            return self.has_last_word(GONE).then_some(Edits { record, set });
        }
        let mut set = self.before();
        set.retain(|field, value| self.has_last_word(field) && self.change.set[field] != *value);
        (!set.is_empty()).then_some(Edits { record, set })
    }

    /// Whether it said what stood there already, and still stands: so does who settles a dispute on what is used meanwhile.
    fn moved_nothing(&self) -> bool {
        let is_same = |(field, value): (&String, &Value)| {
            self.has_last_word(field) && self.change.set[field] == *value
        };
        !self.made_it() && self.before().iter().all(is_same)
    }
}
