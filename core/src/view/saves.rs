//! A save in a sentence, for the undo bar and the last ten.

use crate::book::State;
use crate::change::Change;
use crate::id::ThingId;
use crate::money::{Money, plain};
use crate::stamp::At;
use serde::Deserialize;
use serde_json::Value;
use uuid::Uuid;

/// A save that can be undone.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// First number of the save.
    pub save: u64,
    /// When.
    pub at: At,
    /// What it did, as a short sentence without a full stop.
    pub sentence: String,
}

/// Describes a save by its changes. `None` for no changes at all.
#[must_use]
pub fn describe(state: &State, changes: &[Change]) -> Option<Done> {
    let first = changes.first()?;
    let of_kind = |kind: &str| changes.iter().find(|change| change.kind == kind);
    let sentence = if let Some(thing) = of_kind("thing") {
        let of_things = changes.iter().filter(|change| change.kind == "thing");
        let name = match of_things.count() {
            1 => name_in(thing).unwrap_or_else(|| thing_name(state, thing.id)),
            count => format!("{count} things"),
        };
        of_thing(state, &name, thing, of_kind("lot"))
    } else if let Some(venue) = of_kind("venue") {
        let name = name_in(venue).or_else(|| {
            state
                .tables
                .venues
                .get(&venue.id)
                .and_then(|entry| entry.value.name.clone())
        });
        format!(
            "{} {}",
            name.unwrap_or_else(|| "venue".to_owned()),
            moved(venue).unwrap_or("saved")
        )
    } else if let Some(passed) = of_kind("passed") {
        let name = name_in(passed).unwrap_or_else(|| "Thing".to_owned());
        format!("{name} passed by")
    } else if let Some(other) = changes
        .iter()
        .find(|change| ["card", "container", "kind"].contains(&change.kind.as_str()))
    {
        let name = name_in(other).or_else(|| card_name(other));
        let name = name.or_else(|| known_name(state, other));
        let name = name.unwrap_or_else(|| capital(&other.kind));
        let is_checked = other.kind == "card" && !other.set.contains_key("card");
        let done = if is_checked { "checked" } else { "saved" };
        format!("{name} {}", moved(other).unwrap_or(done))
    } else if of_kind("terms").is_some() {
        "Terms saved".to_owned()
    } else if first.set.contains_key("usual_venue") && first.set.len() == 1 {
        "Usual venue chosen".to_owned()
    } else if first.set.contains_key("usual_card") && first.set.len() == 1 {
        "Usual rate card chosen".to_owned()
    } else if of_kind("book").is_some() {
        "Book begun".to_owned()
    } else {
        "House rules saved".to_owned()
    };
    Some(Done {
        save: first.save,
        at: first.at,
        sentence,
    })
}

/// The name that a rate card, a container or a kind has now.
fn known_name(state: &State, change: &Change) -> Option<String> {
    let tables = &state.tables;
    match change.kind.as_str() {
        "card" => {
            let card = &tables.cards.get(&change.id)?.value.card;
            card.as_ref().map(|card| card.name.clone())
        }
        "container" => tables.containers.get(&change.id)?.value.name.clone(),
        _ => tables.kinds.get(&change.id)?.value.name.clone(),
    }
}

fn of_thing(state: &State, name: &str, thing: &Change, lot: Option<&Change>) -> String {
    if let Some(moved) = moved(thing) {
        return format!("{name} {moved}");
    }
    let paid = lot.and_then(|lot| Money::deserialize(lot.set.get("paid")?).ok());
    match (paid, state.currency()) {
        (Some(paid), Some(currency)) => format!("{name} bought, {}", plain(paid, currency)),
        _ => format!("{name} changed"),
    }
}

fn card_name(change: &Change) -> Option<String> {
    let name = change.set.get("card")?.get("name")?.as_str()?;
    Some(name.to_owned())
}

fn capital(word: &str) -> String {
    let mut word = word.to_owned();
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    word
}

fn thing_name(state: &State, id: Uuid) -> String {
    let name = state
        .tables
        .things
        .get(&ThingId(id).0)
        .and_then(|entry| entry.value.name.clone());
    name.unwrap_or_else(|| "Thing".to_owned())
}

fn name_in(change: &Change) -> Option<String> {
    change
        .set
        .get("name")
        .and_then(Value::as_str)
        .map(str::to_owned)
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
