//! History of a thing: what was said of it and of its lot, when, on which device.

use super::parts::{is_shown, label, value};
use crate::book::State;
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
    changes.sort_by_key(|change| std::cmp::Reverse((change.stamp, change.key)));
    let said = changes.into_iter().map(|change| {
        let shown = change
            .set
            .iter()
            .filter(|(field, _)| is_shown(&change.kind, field));
        let lines = shown.map(|(field, said)| {
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
