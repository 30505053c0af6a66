//! What a record is called: by its own name, else by what is known of it. One that was taken away has its name still.

use super::clock::time;
use crate::book::{Lot, State, Stop, Thing};
use crate::change::RecordKey;
use crate::id::{KindId, LotId, StopId, ThingId, WorkId};
use crate::kind::RecordKind;
use crate::money::{Money, plain};
use crate::trip::stop_title;
use uuid::Uuid;

/// What a record is called, as it stands in a sentence.
#[must_use]
pub fn named(state: &State, record: &RecordKey) -> String {
    let found = by_what_is_known(state, &record.kind, record.id);
    found.unwrap_or_else(|| nameless(&record.kind).to_owned())
}

fn by_what_is_known(state: &State, kind: &RecordKind, id: Uuid) -> Option<String> {
    let tables = &state.tables;
    match kind {
        RecordKind::Thing => of_thing(state, &tables.things.get(&id)?.value),
        RecordKind::Lot => Some(of_lot(state, LotId(id), &tables.lots.get(&id)?.value)),
        RecordKind::Terms => {
            let terms = &tables.terms.get(&id)?.value;
            let venue = terms.venue.and_then(|id| tables.venues.get(&id.0));
            let venue = venue.and_then(|venue| venue.value.name.clone());
            let from = terms.from.map(|from| format!(" from {from}"));
            let venue = venue.unwrap_or_else(|| "a venue".to_owned());
            Some(format!("Terms of {venue}{}", from.unwrap_or_default()))
        }
        RecordKind::Card => {
            let card = tables.cards.get(&id)?.value.card.as_ref();
            card.map(|card| card.name.clone())
        }
        RecordKind::Kind => {
            let said = tables
                .kinds
                .get(&id)
                .and_then(|kind| kind.value.name.clone());
            said.or_else(|| state.kind(KindId(id)).map(|kind| kind.name))
        }
        RecordKind::Trip => {
            let trip = &tables.trips.get(&id)?.value;
            let day = || trip.day.or_else(|| trip.started?.day());
            let on_day = || day().map(|day| format!("Trip of {day}"));
            trip.name.clone().or_else(on_day)
        }
        RecordKind::Stop => Some(of_stop(state, StopId(id), &tables.stops.get(&id)?.value)),
        RecordKind::Cash => {
            let cash = &tables.cash.get(&id)?.value;
            let amount = cash.amount.map(Money::abs).zip(state.currency());
            let amount = amount.map(|(amount, currency)| format!(", {}", plain(amount, currency)));
            Some(format!("Entry of the purse{}", amount.unwrap_or_default()))
        }
        RecordKind::Worked => {
            let worked = &tables.worked.get(&id)?.value;
            let work = linked(state, worked.work.map(WorkId::record));
            let thing = linked(state, worked.thing.map(ThingId::record));
            Some(format!("{work} on {thing}"))
        }
        RecordKind::Photo => {
            let photo = &tables.photos.get(&id)?.value;
            let thing = linked(state, photo.thing.map(ThingId::record));
            Some(format!("Picture of {thing}"))
        }
        RecordKind::Device => {
            let device = &tables.devices.get(&id)?.value;
            let code = || Some(device.code?.to_string());
            device.name.clone().or_else(code)
        }
        // By its own name, where it has one.
        _ => {
            let kind = kind.clone();
            let fields = state.fields_of(&RecordKey { kind, id });
            fields.get("name")?.as_str().map(str::to_owned)
        }
    }
}

/// What kind of record it is, as it begins a sentence.
#[must_use]
pub fn nameless(kind: &RecordKind) -> &'static str {
    let declared = kind.declared();
    declared.map_or("Something of a newer version", |declared| declared.nameless)
}

/// What several of a kind are called, within a sentence.
pub(super) fn several(kind: &RecordKind) -> &'static str {
    let declared = kind.declared();
    declared.map_or("things of a newer version", |declared| declared.several)
}

fn linked(state: &State, link: Option<RecordKey>) -> String {
    link.map_or_else(|| "nothing".to_owned(), |record| named(state, &record))
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
    let things = state.things_of(id).filter_map(|thing| state.thing(thing));
    let names: Vec<String> = things.filter_map(|thing| of_thing(state, thing)).collect();
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
