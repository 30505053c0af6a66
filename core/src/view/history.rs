//! History of a thing: what was said of it and of its lot, when, on which device.

use super::parts::{is_shown, label, value};
use crate::book::{DECLARED, State};
use crate::change::{Change, Key};
use crate::stamp::At;

/// One change as people read it.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// Which change.
    pub key: Key,
    /// When, as the device's clock showed.
    pub at: At,
    /// The device's name, or its code while it has none here.
    pub device: String,
    /// Field and new value, in words.
    pub lines: Vec<(String, String)>,
}

/// The history that these changes tell, newest first. Changes that say nothing to people are left out.
#[must_use]
pub fn history(state: &State, mut changes: Vec<Change>) -> Vec<Said> {
    let Some(currency) = state.currency() else {
        return Vec::new();
    };
    changes.sort_unstable_by_key(|change| std::cmp::Reverse((change.stamp, change.key)));
    let said = changes.into_iter().map(|change| {
        let mut shown: Vec<_> = change
            .set
            .iter()
            .filter(|(field, _)| is_shown(&change.kind, field))
            .collect();
        shown.sort_unstable_by_key(|(field, _)| (place(&change.kind, field), *field));
        let lines = shown.into_iter().map(|(field, said)| {
            (
                label(&change.kind, field),
                value(&change.kind, field, said, currency),
            )
        });
        Said {
            key: change.key,
            at: change.at,
            device: state.name_of(change.device()),
            lines: lines.collect(),
        }
    });
    said.filter(|said| !said.lines.is_empty()).collect()
}

/// Where a field stands in the table of kinds; what this version does not know comes last.
fn place(kind: &str, field: &str) -> usize {
    let is_it =
        |declared: &&(&str, &str, &str, &str, u32)| (declared.0, declared.1) == (kind, field);
    let before = DECLARED.iter().take_while(|declared| !is_it(declared));
    before.count()
}

#[cfg(test)]
mod tests;
