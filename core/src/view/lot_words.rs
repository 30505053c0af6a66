//! A lot in a few words: its name, else what is in it, else what was given back of it.

use super::named::named;
use crate::book::{SharedLot, State};
use crate::id::ThingId;

/// How many things of a lot are named.
const NAMED: usize = 2;

/// A lot by its name, else by what is in it: "Coat, boots and 3 more".
#[must_use]
pub fn lot_words(state: &State, lot: &SharedLot<'_>) -> String {
    if let Some(name) = lot.lot.name.as_ref().filter(|name| !name.is_empty()) {
        return name.clone();
    }
    let unsorted = lot.split.unsorted.len();
    let mut parts: Vec<String> = Vec::new();
    for id in lot.things.iter().take(NAMED) {
        parts.push(named(state, &id.record()));
    }
    let more = lot.things.len().saturating_sub(NAMED);
    let rest = match (more, unsorted) {
        (0, 0) => None,
        (0, 1) => Some("1 not sorted yet".to_owned()),
        (0, count) => Some(format!("{count} not sorted yet")),
        (more, unsorted) => Some(format!("{} more", more + unsorted)),
    };
    match (parts.as_slice(), rest) {
        ([], None) => given_back(state, lot),
        ([], Some(rest)) => rest,
        ([one], None) => one.clone(),
        (all, None) => all.join(" and "),
        (all, Some(rest)) => format!("{} and {rest}", all.join(", ")),
    }
}

/// A lot with nothing left of it: by what was in it.
fn given_back(state: &State, lot: &SharedLot<'_>) -> String {
    let things = state.tables.things.iter();
    let was_in = things.filter(|(_, entry)| entry.value.lot == Some(lot.id));
    let names: Vec<String> = was_in
        .map(|(id, _)| named(state, &ThingId(*id).record()))
        .collect();
    match names.as_slice() {
        [] => "Nothing is left of it".to_owned(),
        [one] => format!("{one}, given back"),
        [one, rest @ ..] => format!("{one} and {} more, given back", rest.len()),
    }
}
