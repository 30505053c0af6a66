//! A save in a sentence, for the undo bar and the last ten.

mod brief;
mod field;
mod haul;

#[cfg(test)]
mod tests;

pub use brief::briefly;

use super::named::nameless;
use crate::book::State;
use crate::change::{Change, Fields, GONE};
use crate::id::ThingId;
use crate::kind::RecordKind;
use crate::stamp::At;
use haul::Save;
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
    let about = changes.iter().min_by_key(|change| place(&change.kind))?;
    let is_joined =
        |change: &Change| change.kind == RecordKind::Book && change.set.contains_key(GONE);
    let sentence = if changes.iter().any(is_joined) {
        "One book made of two".to_owned()
    } else if let Some(of_field) = field::sentence(state, changes) {
        of_field
    } else {
        sentence(&Save { state, changes }, about)
    };
    Some(Done {
        save: first.save,
        at: first.at,
        sentence,
        thing: bought(changes),
    })
}

/// A save of several kinds is about the one that comes first here.
const fn place(kind: &RecordKind) -> u8 {
    match kind {
        RecordKind::Work => 0,
        RecordKind::Thing => 1,
        RecordKind::Lot => 2,
        RecordKind::Photo => 3,
        RecordKind::Stop => 4,
        RecordKind::Trip => 5,
        RecordKind::Cash => 6,
        RecordKind::Venue => 7,
        RecordKind::Passed => 8,
        RecordKind::Card | RecordKind::Container | RecordKind::Kind => 9,
        RecordKind::Rules => 11,
        RecordKind::Book => 13,
        RecordKind::Device => 14,
        RecordKind::Unknown(_) => 15,
        _ => 10,
    }
}

/// The sentence of a save that is about this change.
fn sentence(save: &Save<'_>, about: &Change) -> String {
    let state = save.state;
    let named = |nameless: &str, done: &str| {
        let name = name_of(state, about).unwrap_or_else(|| nameless.to_owned());
        format!("{name} {}", moved(about).unwrap_or(done))
    };
    match about.kind {
        RecordKind::Work => save.of_work(about),
        RecordKind::Thing => save.of_things(about),
        RecordKind::Lot => save.of_lot(about),
        RecordKind::Photo => save.of_photo(about),
        RecordKind::Stop | RecordKind::Trip => save.of_outing(about),
        RecordKind::Cash => save.of_cash(about),
        RecordKind::Passed => named("Thing", "passed by"),
        RecordKind::Card if !about.set.contains_key("card") => named("Rate card", "checked"),
        RecordKind::Terms => "Terms saved".to_owned(),
        RecordKind::Rules => of_rules(about).to_owned(),
        RecordKind::Book => "Book begun".to_owned(),
        RecordKind::Device => "This device named".to_owned(),
        RecordKind::Unknown(_) => "Saved".to_owned(),
        _ => named(nameless(&about.kind), "saved"),
    }
}

fn of_rules(rules: &Change) -> &'static str {
    let says = |field: &str| rules.set.contains_key(field);
    if says("usual_venue") && rules.set.len() == 1 {
        "Usual venue chosen"
    } else if says("usual_card") && rules.set.len() == 1 {
        "Usual rate card chosen"
    } else if says("units") {
        "Units chosen"
    } else if says("distance") {
        "Unit of distances chosen"
    } else {
        "House rules saved"
    }
}

/// The one thing that came into the book.
fn bought(changes: &[Change]) -> Option<ThingId> {
    let is_new = |change: &&Change| {
        change.kind == RecordKind::Thing
            && change.set.contains_key("lot")
            && !change.set.contains_key(GONE)
    };
    let mut new = changes.iter().filter(is_new);
    let (first, second) = (new.next(), new.next());
    let has_lot = changes.iter().any(|change| change.kind == RecordKind::Lot);
    first
        .filter(|_| second.is_none() && has_lot)
        .map(|change| ThingId(change.id))
}

/// The name that a save gives a record, else the one that it has now.
fn name_of(state: &State, change: &Change) -> Option<String> {
    let now = state.fields_of(&change.record());
    let name = name_in(&change.set).or_else(|| name_in(&now))?;
    Some(name.to_owned())
}

/// The name of a record, or of the rate card in it.
fn name_in(fields: &Fields) -> Option<&str> {
    let of_card = || fields.get("card")?.get("name");
    fields.get("name").or_else(of_card)?.as_str()
}

fn moved(change: &Change) -> Option<&'static str> {
    change.set.get(GONE).map(|gone| {
        if gone == &Value::Bool(true) {
            "taken out"
        } else {
            "put back"
        }
    })
}
