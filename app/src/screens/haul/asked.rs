//! The small questions of trips, stops and the purse.

use std::rc::Rc;

use haulwren_core::book::{Command, ThingCommand, TripCommand};
use haulwren_core::id::ThingId;
use haulwren_core::ledger::Moved;
use haulwren_core::measure::{Distance, DistanceUnit, Unit};
use haulwren_core::money::{Currency, Money, parse};

use crate::shell::clock;
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask, fixed};
use crate::ui::field::Entry;

/// What is wrong with an answer: the place of its text, and a sentence.
pub type Fault = (usize, String);

/// The amount in a text, which has to be there.
pub fn amount(answer: &Answer, at: usize, currency: Currency) -> Result<Money, Fault> {
    parse(&answer.texts[at], currency).map_err(|error| (at, error.to_string()))
}

/// The amount in a text, if any is.
pub fn maybe_amount(
    answer: &Answer,
    at: usize,
    currency: Currency,
) -> Result<Option<Money>, Fault> {
    if answer.texts[at].is_empty() {
        return Ok(None);
    }
    amount(answer, at, currency).map(Some)
}

/// The whole number in a text, if any is.
pub fn maybe_whole(answer: &Answer, at: usize) -> Result<Option<u32>, Fault> {
    let text = &answer.texts[at];
    if text.is_empty() {
        return Ok(None);
    }
    let read = text.parse().map(Some);
    read.map_err(|_| (at, "Type a whole number.".to_owned()))
}

/// The distance in a text, if any is; a number alone is in the unit of the book.
pub fn maybe_distance(
    answer: &Answer,
    at: usize,
    unit: DistanceUnit,
) -> Result<Option<Distance>, Fault> {
    let text = &answer.texts[at];
    if text.is_empty() {
        return Ok(None);
    }
    let has_unit = text.ends_with(|sign: char| sign.is_ascii_alphabetic());
    let read: Result<Distance, _> = if has_unit {
        text.parse()
    } else {
        [text.as_str(), " ", unit.symbol()].concat().parse()
    };
    read.map(Some).map_err(|error| (at, error.to_string()))
}

/// The book's currency; these questions are only asked of a book.
pub fn currency(store: Store) -> Option<Currency> {
    leptos::prelude::untrack(|| store.currency())
}

/// Asks what is taken along, and starts a trip.
pub fn start_trip() {
    let store = use_store();
    let Some(currency) = currency(store) else {
        return;
    };
    let answer = move |answer: &Answer| {
        let command = TripCommand::StartTrip {
            took_out: maybe_amount(answer, 0, currency)?,
            odometer: maybe_whole(answer, 1)?,
            name: answer.texts[2].clone(),
        };
        store.dispatch(Command::Trip(command), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "Start a trip".to_owned(),
        hint: "Everything may stay empty, and be said later.".to_owned(),
        texts: vec![
            AskText::number("Cash in the pocket", ""),
            AskText::number("Odometer", ""),
            AskText::words("Name of the trip", ""),
        ],
        choice: None,
        word: "Start",
        answer: Rc::new(answer),
    });
}

/// Asks how far it was, and ends the trip.
pub fn end_trip() {
    let store = use_store();
    let unit = store.read(haulwren_core::book::State::distance_unit);
    let answer = move |answer: &Answer| {
        let command = TripCommand::EndTrip {
            odometer: maybe_whole(answer, 0)?,
            distance: maybe_distance(answer, 1, unit)?,
        };
        store.dispatch(Command::Trip(command), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "End the trip".to_owned(),
        hint:
            "The odometer, or how far it was: one of them is enough, and either can be said later."
                .to_owned(),
        texts: vec![
            AskText::number("Odometer", ""),
            AskText {
                unit: unit.symbol(),
                ..AskText::number("Driven", "")
            },
        ],
        choice: None,
        word: "End it",
        answer: Rc::new(answer),
    });
}

const MOVES: [(&str, &str); 4] = [
    (
        "I count",
        "What is in the pocket now: the difference is noted",
    ),
    ("Put in", "More cash was taken out of the bank"),
    ("Spent", "Entry, parking, something to eat"),
    ("Sold for cash", "Something went at once"),
];

/// Asks what moved the purse, or what is in it.
pub fn purse() {
    let store = use_store();
    let Some(currency) = currency(store) else {
        return;
    };
    let answer = move |answer: &Answer| {
        let amount = amount(answer, 0, currency)?;
        let what = [
            None,
            Some(Moved::TookOut),
            Some(Moved::OtherSpent),
            Some(Moved::Sold),
        ];
        let command = match what[answer.choice.min(3)] {
            None => TripCommand::CountCash(amount),
            Some(what) => TripCommand::MoveCash {
                what,
                amount,
                note: answer.texts[1].clone(),
            },
        };
        store.dispatch(Command::Trip(command), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "The purse".to_owned(),
        hint: String::new(),
        texts: vec![
            AskText::number("How much", ""),
            AskText::words("What for", "").hint("It may stay empty."),
        ],
        choice: Some(("What", fixed(&MOVES), 0)),
        word: "Save",
        answer: Rc::new(answer),
    });
}

/// Asks for a name, and hands it on.
pub fn name(title: &str, label: &'static str, now: &str, then: impl Fn(String) + 'static) {
    ask(Ask {
        title: title.to_owned(),
        hint: String::new(),
        texts: vec![AskText {
            entry: Entry::Words,
            ..AskText::words(label, now)
        }],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            then(answer.texts[0].clone());
            Ok(())
        }),
    });
}

/// Asks for a number of things, and hands it on.
pub fn count(title: &str, now: usize, then: impl Fn(u16) + 'static) {
    ask(Ask {
        title: title.to_owned(),
        hint: String::new(),
        texts: vec![AskText::number("How many", &now.to_string())],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            let count = answer.texts[0].parse();
            then(count.map_err(|_| (0, "Type a whole number.".to_owned()))?);
            Ok(())
        }),
    });
}

/// Asks for an amount, and hands it on.
pub fn money(title: &str, label: &'static str, now: Option<Money>, then: impl Fn(Money) + 'static) {
    let Some(currency) = currency(use_store()) else {
        return;
    };
    let value = now.map(|now| haulwren_core::money::plain(now, currency));
    ask(Ask {
        title: title.to_owned(),
        hint: String::new(),
        texts: vec![AskText::number(label, &value.unwrap_or_default())],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            then(amount(answer, 0, currency)?);
            Ok(())
        }),
    });
}

/// Asks for work that was put into things: one bill, shared evenly.
pub fn work(things: Vec<ThingId>, then: impl Fn() + Clone + 'static) {
    let store = use_store();
    let Some(currency) = currency(store) else {
        return;
    };
    let hint = match things.len() {
        1 => "Washing, mending, parts: its cost joins what the thing cost.".to_owned(),
        count => format!("One bill for {count} things: each carries an even part of it."),
    };
    ask(Ask {
        title: "Work put in".to_owned(),
        hint,
        texts: vec![
            AskText::words("What was done", ""),
            AskText::number("What it cost", ""),
        ],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            if answer.texts[0].is_empty() {
                return Err((0, "Say what was done.".to_owned()));
            }
            let cost = amount(answer, 1, currency)?;
            let day = clock::now().day();
            let command = ThingCommand::AddWork {
                name: answer.texts[0].clone(),
                cost,
                day: day.ok_or((1, "The clock of this device is off.".to_owned()))?,
                things: things.clone(),
            };
            let then = then.clone();
            store.dispatch(command.into(), move |saved| {
                if saved {
                    then();
                }
            });
            Ok(())
        }),
    });
}
