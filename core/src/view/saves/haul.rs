//! Saves about what was bought, trips, stops and the purse, in a sentence each.

use super::{moved, name_of};
use crate::book::State;
use crate::change::Change;
use crate::kind::RecordKind;
use crate::ledger::{Moved, Paying};
use crate::lot::Method;
use crate::money::{Money, plain};
use serde::de::DeserializeOwned;
use serde_json::Value;

/// A save, and the book after it.
pub(super) struct Save<'a> {
    pub(super) state: &'a State,
    pub(super) changes: &'a [Change],
}

/// A field that was set to something, read.
fn said<T: DeserializeOwned>(change: &Change, field: &str) -> Option<T> {
    T::deserialize(change.set.get(field)?).ok()
}

fn is_set(change: &Change, field: &str) -> bool {
    change.set.get(field).is_some_and(|value| !value.is_null())
}

impl<'a> Save<'a> {
    fn first(&self, kind: &RecordKind) -> Option<&'a Change> {
        self.changes.iter().find(|change| change.kind == *kind)
    }

    /// With an amount behind it, where there is one.
    fn with(&self, words: String, amount: Option<Money>) -> String {
        match (amount, self.state.currency()) {
            (Some(amount), Some(currency)) => format!("{words}, {}", plain(amount, currency)),
            _ => words,
        }
    }

    pub(super) fn of_work(&self, work: &Change) -> String {
        let name = name_of(self.state, work).unwrap_or_else(|| "Work".to_owned());
        match moved(work) {
            Some(moved) => format!("{name} {moved}"),
            None => self.with(format!("{name} added"), said(work, "cost")),
        }
    }

    pub(super) fn of_things(&self, thing: &Change) -> String {
        let of_things = self
            .changes
            .iter()
            .filter(|change| change.kind == RecordKind::Thing);
        let name = match of_things.count() {
            1 => name_of(self.state, thing).unwrap_or_else(|| "Thing".to_owned()),
            count => format!("{count} things"),
        };
        let lot = self.first(&RecordKind::Lot);
        let lot_says = |field: &str| lot.is_some_and(|lot| lot.set.contains_key(field));
        if let Some(moved) = moved(thing) {
            let is_back = thing.set["gone"] == Value::Bool(true) && lot_says("paid");
            let moved = if is_back { "given back" } else { moved };
            return format!("{name} {moved}");
        }
        if lot_says("bought") {
            let paid = lot.and_then(|lot| said(lot, "paid"));
            return self.with(format!("{name} bought"), paid);
        }
        if lot_says("method") {
            // The shares of its things that go with it are not what was asked for.
            return lot.map_or_else(String::new, |lot| self.of_lot(lot));
        }
        let says = |field: &str| thing.set.contains_key(field);
        if lot_says("unsorted") {
            format!("{name} sorted")
        } else if says("lot") {
            format!("{name} moved to another lot")
        } else if is_set(thing, "share") {
            self.with(format!("Share of {name} fixed"), said(thing, "share"))
        } else if says("share") {
            format!("Share of {name} freed")
        } else if is_set(thing, "kept") {
            format!("{name} kept for yourself")
        } else if says("kept") {
            format!("{name} no longer kept")
        } else if ["colour", "label", "maker", "flaw", "pieces"]
            .into_iter()
            .any(says)
        {
            format!("{name} marked")
        } else {
            format!("{name} changed")
        }
    }

    pub(super) fn of_lot(&self, lot: &Change) -> String {
        let unsorted: Option<u16> = said(lot, "unsorted");
        let name: Option<String> = said(lot, "name");
        let count = |count: u16| match count {
            1 => "1 thing".to_owned(),
            count => format!("{count} things"),
        };
        if let Some(moved) = moved(lot) {
            format!("Lot {moved}")
        } else if let (Some(unsorted), true) = (unsorted, is_set(lot, "bought")) {
            self.with(format!("{} added", count(unsorted)), said(lot, "paid"))
        } else if lot.set.contains_key("method") {
            let method: Method = said(lot, "method").unwrap_or_default();
            format!("Lot split {}", method.word())
        } else if is_set(lot, "paid") {
            self.with("Lot paid".to_owned(), said(lot, "paid"))
        } else if lot.set.contains_key("extras") {
            let extras = said(lot, "extras").unwrap_or_default();
            self.with("Extras of a lot".to_owned(), Some(extras))
        } else if lot.set.contains_key("by") {
            let by: Paying = said(lot, "by").unwrap_or_default();
            format!("Lot paid in {}", by.word())
        } else if lot.set.contains_key("unsorted") {
            format!("{} left to sort", count(unsorted.unwrap_or(0)))
        } else if lot.set.contains_key("stop") {
            "Lot moved to another stop".to_owned()
        } else if let Some(name) = name {
            format!("{name} named")
        } else {
            "Lot changed".to_owned()
        }
    }

    pub(super) fn of_photo(&self, photo: &Change) -> String {
        let stored = self.state.tables.photos.get(&photo.id);
        let thing = stored.and_then(|entry| entry.value.thing);
        let name = thing.and_then(|id| self.state.tables.things.get(&id.0)?.value.name.clone());
        let name = name.as_deref().unwrap_or("a thing");
        format!("Picture of {name} {}", moved(photo).unwrap_or("added"))
    }

    /// A trip, or its stops. That it ended, or goes on, is more than what became of its last stop.
    pub(super) fn of_outing(&self, about: &Change) -> String {
        let trip = self.first(&RecordKind::Trip);
        match trip.and_then(|trip| trip.set.get("ended")) {
            Some(Value::Null) => "Trip under way again".to_owned(),
            Some(_) => "Trip ended".to_owned(),
            None => match self.stop() {
                Some(stop) => self.of_stop(stop),
                None => self.of_trip(about),
            },
        }
    }

    /// The stop that the save is about: the one arrived at, else the first.
    fn stop(&self) -> Option<&'a Change> {
        let arrived =
            |change: &&Change| change.kind == RecordKind::Stop && is_set(change, "arrived");
        let arrived = self.changes.iter().find(arrived);
        arrived.or_else(|| self.first(&RecordKind::Stop))
    }

    fn of_stop(&self, stop: &Change) -> String {
        let name = name_of(self.state, stop);
        let named = name.clone().unwrap_or_else(|| "Stop".to_owned());
        if let Some(moved) = moved(stop) {
            format!("{named} {moved}")
        } else if is_set(stop, "planned") {
            format!("{named} planned")
        } else if is_set(stop, "arrived") && !is_set(stop, "left") {
            format!("Arrived at {}", name.as_deref().unwrap_or("the next stop"))
        } else {
            format!("{named} changed")
        }
    }

    fn of_trip(&self, trip: &Change) -> String {
        if let Some(moved) = moved(trip) {
            return format!("Trip {moved}");
        }
        let cash = self
            .first(&RecordKind::Cash)
            .and_then(|cash| said(cash, "amount"));
        if is_set(trip, "started") {
            self.with("Trip started".to_owned(), cash)
        } else {
            "Trip changed".to_owned()
        }
    }

    pub(super) fn of_cash(&self, cash: &Change) -> String {
        if let Some(moved) = moved(cash) {
            return format!("Entry of the purse {moved}");
        }
        let amount = said(cash, "amount").map(Money::abs);
        match said(cash, "what") {
            Some(Moved::TookOut) => self.with("Cash taken along".to_owned(), amount),
            Some(Moved::OtherSpent) => self.with("Cash spent".to_owned(), amount),
            Some(Moved::Sold) => self.with("Sold for cash".to_owned(), amount),
            Some(Moved::Counted) => self.with("Cash counted".to_owned(), said(cash, "counted")),
            None => "Purse changed".to_owned(),
        }
    }
}
