//! What a record is called: by its own name, else by what is known of it. One that was taken away has its name still.

use super::values::time;
use crate::book::{Lot, State, Stop, Thing};
use crate::change::RecordKey;
use crate::id::{KindId, LotId, StopId};
use crate::money::{Money, plain};
use crate::trip::stop_title;

/// What a record is called, as it stands in a sentence.
#[must_use]
pub fn named(state: &State, record: &RecordKey) -> String {
    let (tables, id) = (&state.tables, &record.id);
    let found = match record.kind.as_str() {
        "thing" => tables
            .things
            .get(id)
            .and_then(|thing| of_thing(state, &thing.value)),
        "lot" => tables
            .lots
            .get(id)
            .map(|lot| of_lot(state, LotId(*id), &lot.value)),
        "venue" => tables
            .venues
            .get(id)
            .and_then(|venue| venue.value.name.clone()),
        "terms" => tables.terms.get(id).map(|terms| {
            let venue = terms.value.venue.and_then(|id| tables.venues.get(&id.0));
            let venue = venue.and_then(|venue| venue.value.name.clone());
            let from = terms.value.from.map(|from| format!(" from {from}"));
            let venue = venue.unwrap_or_else(|| "a venue".to_owned());
            format!("Terms of {venue}{}", from.unwrap_or_default())
        }),
        "card" => {
            let card = tables
                .cards
                .get(id)
                .and_then(|card| card.value.card.as_ref());
            card.map(|card| card.name.clone())
        }
        "container" => tables
            .containers
            .get(id)
            .and_then(|one| one.value.name.clone()),
        "kind" => {
            let known = tables
                .kinds
                .get(id)
                .and_then(|kind| kind.value.name.clone());
            known.or_else(|| state.kind(KindId(*id)).map(|kind| kind.name))
        }
        "passed" => tables.passed.get(id).and_then(|one| one.value.name.clone()),
        "trip" => tables.trips.get(id).and_then(|trip| {
            let day = || trip.value.day.or_else(|| trip.value.started?.day());
            let on_day = || day().map(|day| format!("Trip of {day}"));
            trip.value.name.clone().or_else(on_day)
        }),
        "stop" => tables
            .stops
            .get(id)
            .map(|stop| of_stop(state, StopId(*id), &stop.value)),
        "cash" => tables.cash.get(id).map(|cash| {
            let amount = cash.value.amount.map(Money::abs).zip(state.currency());
            let amount = amount.map(|(amount, currency)| format!(", {}", plain(amount, currency)));
            format!("Entry of the purse{}", amount.unwrap_or_default())
        }),
        "work" => tables
            .works
            .get(id)
            .and_then(|work| work.value.name.clone()),
        "worked" => tables.worked.get(id).map(|worked| {
            let work = worked.value.work.map(|id| ("work", id.0));
            let thing = worked.value.thing.map(|id| ("thing", id.0));
            format!("{} on {}", linked(state, work), linked(state, thing))
        }),
        "photo" => tables.photos.get(id).map(|photo| {
            let thing = photo.value.thing.map(|id| ("thing", id.0));
            format!("Picture of {}", linked(state, thing))
        }),
        "device" => tables.devices.get(id).and_then(|device| {
            let code = || Some(device.value.code?.to_string());
            device.value.name.clone().or_else(code)
        }),
        "rules" => Some("House rules".to_owned()),
        _ => None,
    };
    found.unwrap_or_else(|| nameless(&record.kind).to_owned())
}

/// What kind of record it is, in a word.
#[must_use]
pub fn nameless(kind: &str) -> &'static str {
    match kind {
        "thing" => "Thing without a name",
        "lot" => "Lot",
        "venue" => "Venue",
        "terms" => "Terms",
        "card" => "Rate card",
        "container" => "Container",
        "kind" => "Kind",
        "passed" => "Thing passed by",
        "trip" => "Trip",
        "stop" => "Stop",
        "cash" => "Entry of the purse",
        "work" => "Work",
        "worked" => "Work on a thing",
        "photo" => "Picture",
        "device" => "Device",
        "rules" => "House rules",
        "book" => "Book",
        _ => "Something of a newer version",
    }
}

fn linked(state: &State, link: Option<(&str, uuid::Uuid)>) -> String {
    link.map_or_else(
        || "nothing".to_owned(),
        |(kind, id)| {
            let kind = kind.to_owned();
            named(state, &RecordKey { kind, id })
        },
    )
}

fn of_thing(state: &State, thing: &Thing) -> Option<String> {
    let of_kind = || Some(state.kind(thing.kind?)?.name);
    thing.name.clone().or_else(of_kind)
}

/// A lot without a name goes by its first things.
fn of_lot(state: &State, id: LotId, lot: &Lot) -> String {
    if let Some(name) = &lot.name {
        return name.clone();
    }
    let things = state.things().filter(|(_, thing)| thing.lot == Some(id));
    let names: Vec<String> = things
        .filter_map(|(_, thing)| of_thing(state, thing))
        .collect();
    match (names.as_slice(), lot.bought) {
        ([], Some(bought)) => format!("Lot of {}", time(bought)),
        ([], None) => "Lot".to_owned(),
        ([one], _) => format!("Lot of {one}"),
        ([one, other], _) => format!("Lot of {one} and {other}"),
        ([one, rest @ ..], _) => format!("Lot of {one} and {} more", rest.len()),
    }
}

fn of_stop(state: &State, id: StopId, stop: &Stop) -> String {
    let name = stop.name.clone().unwrap_or_default();
    let stops = stop
        .trip
        .map(|trip| state.stops_of(trip))
        .unwrap_or_default();
    let place = stops.iter().position(|(one, _)| *one == id);
    match place {
        Some(place) => stop_title(&name, place + 1, stop.arrived),
        None if name.is_empty() => "Stop".to_owned(),
        None => name,
    }
}
