//! The attention list as its screen shows it: a sentence for each concern, and its cure.

use super::named::{named, several};
use super::parts::label;
use crate::book::{Command, Concern, State, ThingCommand, TripCommand, TripSetup};
use crate::change::{GONE, RecordKey};
use crate::id::{BookId, LotId, TripId};
use crate::kind::RecordKind;
use crate::money::{Money, plain};
use crate::stamp::At;

/// One thing that needs the trader.
#[derive(Clone, Debug, PartialEq)]
pub struct Attention {
    /// What it is.
    pub concern: Concern,
    /// What is the matter, as a sentence.
    pub sentence: String,
    /// What mends it.
    pub cure: Cure,
    /// What the key that leads to the cure says.
    pub key: String,
}

/// What mends a concern.
#[derive(Clone, Debug, PartialEq)]
pub enum Cure {
    /// One tap sends this, and it is mended.
    Tell(Box<Command>),
    /// The trader has to choose: see [`dispute`](super::dispute).
    Settle(RecordKey, String),
    /// The trader has to look at this record.
    Look(RecordKey),
}

/// All that needs the trader, as the book says it; empty when nothing does.
#[must_use]
pub fn attention(state: &State) -> Vec<Attention> {
    let mut list = Vec::new();
    for concern in state.attention() {
        let (sentence, cure, key) = told(state, &concern);
        list.push(Attention {
            concern,
            sentence,
            cure,
            key: key.to_owned(),
        });
    }
    list
}

fn told(state: &State, concern: &Concern) -> (String, Cure, &'static str) {
    let name = |record: RecordKey| named(state, &record);
    let money = |money: Money| amount(state, money);
    match concern {
        Concern::Dispute { record, field } => (
            differs(state, record, field),
            Cure::Settle(record.clone(), field.clone()),
            "Choose",
        ),
        Concern::SeveralBooks => (
            "Two books came together and are not one yet.".to_owned(),
            several_books(state),
            "Make one book",
        ),
        Concern::SeveralNames(code) => (
            format!(
                "{} stands in the book more than once.",
                state.name_of(*code)
            ),
            tell(Command::OneDevice(*code)),
            "Keep one name",
        ),
        Concern::NotShared { lot, missing } => {
            let (cure, key) = sharing(state, *lot, *missing);
            let what = if missing.is_negative() {
                "over what was paid"
            } else {
                "not yet shared"
            };
            let lot = name(lot.record());
            (
                format!("{lot}: {} {what}.", money(missing.abs())),
                cure,
                key,
            )
        }
        Concern::WorkOnNothing { work, cost } => {
            let name = name(work.record());
            let sentence = format!(
                "Nothing is left of what {name} was put into: {} is on no thing.",
                money(*cost)
            );
            let cure = tell(ThingCommand::RemoveWork(*work).into());
            (sentence, cure, "Take the work out")
        }
        Concern::LotGone { lot, things } => {
            let are = if *things == 1 {
                "a thing of it is".to_owned()
            } else {
                format!("{things} things of it are")
            };
            let sentence = format!("{} was taken out, and {are} there.", name(lot.record()));
            (sentence, put_back(lot.record()), "Put it back")
        }
        Concern::NoCost(thing) => (
            format!("Nothing says what {} cost.", name(thing.record())),
            Cure::Look(thing.record()),
            "Look at it",
        ),
        Concern::StopGone(stop) => (
            format!(
                "{} was taken out, and something was bought or paid there.",
                name(stop.record())
            ),
            put_back(stop.record()),
            "Put it back",
        ),
        Concern::TripGone(trip) => (
            format!(
                "{} was taken out, and something was bought or paid on it.",
                name(trip.record())
            ),
            put_back(trip.record()),
            "Put it back",
        ),
        Concern::StillOpen { trip, last } => {
            let (one, other) = (name(trip.record()), name(last.record()));
            let (cure, key) = ending(state, *trip, *last);
            (format!("{one} and {other} are both under way."), cure, key)
        }
        Concern::Backwards(record) => (
            backwards(state, record),
            Cure::Look(record.clone()),
            "Look at it",
        ),
        Concern::OneName { second, name, .. } => (
            format!("Two {} are called {name}.", several(&second.kind)),
            Cure::Look(second.clone()),
            "Look at it",
        ),
    }
}

/// That two devices said different things of a field, as a sentence.
#[must_use]
pub fn differs(state: &State, record: &RecordKey, field: &str) -> String {
    let about = named(state, record);
    if field == GONE {
        return format!("{about} was taken out on one device and changed on another.");
    }
    let label = label(&record.kind, field);
    format!("{about}: two devices differ on \u{201c}{label}\u{201d}.")
}

fn backwards(state: &State, record: &RecordKey) -> String {
    let trip = state
        .trip(TripId(record.id))
        .filter(|_| record.kind == RecordKind::Trip);
    let shown = trip.and_then(|trip| trip.odometer_out.zip(trip.odometer_back));
    let name = named(state, record);
    if shown.is_some_and(|(out, back)| back < out) {
        format!("{name}: the odometer shows less on coming back than on leaving.")
    } else {
        format!("{name} ends before it begins.")
    }
}

/// The difference goes to the last thing, where that leaves it no less than nothing.
fn sharing(state: &State, lot: LotId, missing: Money) -> (Cure, &'static str) {
    let shared = state.shared_lot(lot);
    let last = shared.as_ref().and_then(|lot| {
        let share = lot.split.shares.last()?.amount.plus(missing);
        Some((*lot.things.last()?, share))
    });
    let fits = |share: Money| !share.is_negative() && share <= Money::TYPED_MAX;
    match last.filter(|(_, share)| fits(*share)) {
        Some((thing, share)) => {
            let share = Some(share);
            let command = ThingCommand::FixShare { thing, share };
            (tell(command.into()), "Put it on the last thing")
        }
        None => (Cure::Look(lot.record()), "Look at it"),
    }
}

/// The trip that started earlier ends when the last one starts.
fn ending(state: &State, id: TripId, last: TripId) -> (Cure, &'static str) {
    let look = (Cure::Look(id.record()), "Look at it");
    let (Some(trip), Some(last)) = (state.trip(id), state.trip(last)) else {
        return look;
    };
    let ended = last.started.filter(|at: &At| at.day().is_some());
    let is_fit = trip.started.is_some_and(|at| at.day().is_some());
    let went_back = trip.odometer_out.zip(trip.odometer_back);
    if ended.is_none() || !is_fit || went_back.is_some_and(|(out, back)| back < out) {
        return look;
    }
    let setup = TripSetup {
        name: trip.name.clone().unwrap_or_default(),
        day: trip.day,
        started: trip.started,
        ended,
        distance: trip.distance,
        odometer_out: trip.odometer_out,
        odometer_back: trip.odometer_back,
        note: trip.note.clone().unwrap_or_default(),
    };
    let command = TripCommand::SaveTrip { id, setup };
    (tell(command.into()), "End the first")
}

fn several_books(state: &State) -> Cure {
    let stays = state.book().map(|(book, _)| book);
    stays.map_or_else(
        || Cure::Look(BookId::SINGLE.record()),
        |stays| {
            let device = state.name_of(state.me);
            tell(Command::OneBook { stays, device })
        },
    )
}

fn put_back(record: RecordKey) -> Cure {
    tell(Command::put_back(record))
}

fn tell(command: Command) -> Cure {
    Cure::Tell(Box::new(command))
}

fn amount(state: &State, money: Money) -> String {
    state
        .currency()
        .map(|currency| plain(money, currency))
        .unwrap_or_default()
}

#[cfg(test)]
mod tests;
