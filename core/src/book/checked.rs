//! What every command's input is held against, and what of it is worth saying.

use super::command::LONGEST_NAME;
use super::refusal::Refusal;
use super::state::State;
use super::table::Edits;
use crate::money::Money;
use serde_json::Value;

impl State {
    /// Without what stands there already: a form that is saved says only what the trader changed in it. Else two devices that change
    /// different fields would be in dispute over all of them.
    pub(super) fn only_new(&self, mut edits: Edits) -> Edits {
        let known = self.tables.find(&edits.record);
        let known = known.map(|(row, _)| row.fields()).unwrap_or_default();
        for (field, value) in std::mem::take(&mut edits.set) {
            if *known.get(&field).unwrap_or(&Value::Null) != value {
                edits.set.insert(field, value);
            }
        }
        edits
    }

    /// All that is new in these edits.
    ///
    /// # Errors
    /// [`Refusal::NoChange`] when nothing is.
    pub(super) fn all_new(&self, edits: Vec<Edits>) -> Result<Vec<Edits>, Refusal> {
        let mut new = Vec::with_capacity(edits.len());
        for edits in edits {
            let edits = self.only_new(edits);
            if !edits.set.is_empty() {
                new.push(edits);
            }
        }
        if new.is_empty() {
            Err(Refusal::NoChange)
        } else {
            Ok(new)
        }
    }
}

pub(super) fn check_amounts(amounts: &[Money]) -> Result<(), Refusal> {
    if amounts.iter().any(|amount| amount.is_negative()) {
        Err(Refusal::Negative)
    } else if amounts.iter().any(|amount| *amount > Money::TYPED_MAX) {
        Err(Refusal::TooLarge)
    } else {
        Ok(())
    }
}

pub(super) fn check_length(name: &str) -> Result<(), Refusal> {
    if name.chars().count() > LONGEST_NAME {
        Err(Refusal::NameTooLong {
            limit: LONGEST_NAME,
        })
    } else {
        Ok(())
    }
}

/// A text that may be missing.
pub(super) fn checked_text(text: &str, limit: usize) -> Result<Option<String>, Refusal> {
    let text = text.trim();
    if text.chars().count() > limit {
        return Err(Refusal::TextTooLong { limit });
    }
    Ok((!text.is_empty()).then(|| text.to_owned()))
}

/// A name that may be missing.
pub(super) fn checked_maybe(name: &str) -> Result<Option<String>, Refusal> {
    let name = name.trim();
    check_length(name)?;
    Ok((!name.is_empty()).then(|| name.to_owned()))
}

pub(super) fn checked_name(name: &str) -> Result<String, Refusal> {
    let name = name.trim();
    check_length(name)?;
    if name.is_empty() {
        Err(Refusal::NoName)
    } else {
        Ok(name.to_owned())
    }
}
