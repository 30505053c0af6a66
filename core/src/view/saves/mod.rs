//! A save in a sentence, for the undo bar and the last ten.

mod brief;
mod field;
mod haul;

#[cfg(test)]
mod tests;

pub use brief::briefly;

use crate::book::State;
use crate::change::Change;
use crate::id::ThingId;
use crate::stamp::At;
use serde_json::Value;

/// A save that can be undone.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// First number of the save.
    pub save: u64,
    /// When.
    pub at: At,
    /// What it did, as a short sentence without a full stop.
    pub sentence: String,
    /// The thing that it bought, when it bought just one: a picture of it can be taken at once.
    pub thing: Option<ThingId>,
}

/// Describes a save by its changes. `None` for no changes at all.
#[must_use]
pub fn describe(state: &State, changes: &[Change]) -> Option<Done> {
    let first = changes.first()?;
    let of_kind = |kind: &str| changes.iter().find(|change| change.kind == kind);
    let sentence = if of_kind("book").is_some_and(|book| book.set.contains_key("gone")) {
        "One book made of two".to_owned()
    } else if let Some(settled) = field::sentence(state, changes) {
        settled
    } else if let Some(of_haul) = haul::sentence(state, changes) {
        of_haul
    } else if let Some(venue) = of_kind("venue") {
        let name = name_of(state, venue).unwrap_or_else(|| "Venue".to_owned());
        format!("{name} {}", moved(venue).unwrap_or("saved"))
    } else if let Some(passed) = of_kind("passed") {
        let name = name_of(state, passed).unwrap_or_else(|| "Thing".to_owned());
        format!("{name} {}", moved(passed).unwrap_or("passed by"))
    } else if let Some(other) = changes
        .iter()
        .find(|change| ["card", "container", "kind"].contains(&change.kind.as_str()))
    {
        let name = name_of(state, other).unwrap_or_else(|| capital(&other.kind));
        let is_checked = other.kind == "card" && !other.set.contains_key("card");
        let done = if is_checked { "checked" } else { "saved" };
        format!("{name} {}", moved(other).unwrap_or(done))
    } else if of_kind("terms").is_some() {
        "Terms saved".to_owned()
    } else if first.set.contains_key("usual_venue") && first.set.len() == 1 {
        "Usual venue chosen".to_owned()
    } else if first.set.contains_key("usual_card") && first.set.len() == 1 {
        "Usual rate card chosen".to_owned()
    } else if first.set.contains_key("units") {
        "Units chosen".to_owned()
    } else if first.set.contains_key("distance") {
        "Unit of distances chosen".to_owned()
    } else if of_kind("device").is_some() && of_kind("book").is_none() {
        "This device named".to_owned()
    } else if of_kind("book").is_some() {
        "Book begun".to_owned()
    } else {
        "House rules saved".to_owned()
    };
    Some(Done {
        save: first.save,
        at: first.at,
        sentence,
        thing: bought(changes),
    })
}

/// The one thing that came into the book.
fn bought(changes: &[Change]) -> Option<ThingId> {
    let is_new = |change: &&Change| {
        change.kind == "thing" && change.set.contains_key("lot") && !change.set.contains_key("gone")
    };
    let mut new = changes.iter().filter(is_new);
    let (first, second) = (new.next(), new.next());
    let has_lot = changes.iter().any(|change| change.kind == "lot");
    first
        .filter(|_| second.is_none() && has_lot)
        .map(|change| ThingId(change.id))
}

/// The name that a save gives a record, else the one that it has now.
fn name_of(state: &State, change: &Change) -> Option<String> {
    let in_card = || change.set.get("card")?.get("name");
    let said = change.set.get("name").or_else(in_card);
    if let Some(said) = said.and_then(Value::as_str) {
        return Some(said.to_owned());
    }
    let (tables, id) = (&state.tables, &change.id);
    match change.kind.as_str() {
        "thing" => tables.things.get(id)?.value.name.clone(),
        "stop" => tables.stops.get(id)?.value.name.clone(),
        "work" => tables.works.get(id)?.value.name.clone(),
        "venue" => tables.venues.get(id)?.value.name.clone(),
        "container" => tables.containers.get(id)?.value.name.clone(),
        "kind" => tables.kinds.get(id)?.value.name.clone(),
        "card" => {
            let card = tables.cards.get(id)?.value.card.as_ref();
            card.map(|card| card.name.clone())
        }
        _ => None,
    }
}

fn capital(word: &str) -> String {
    let mut word = word.to_owned();
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    word
}

fn moved(change: &Change) -> Option<&'static str> {
    change.set.get("gone").map(|gone| {
        if gone == &Value::Bool(true) {
            "taken out"
        } else {
            "put back"
        }
    })
}
