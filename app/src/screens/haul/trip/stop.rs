//! One stop: when, how far sellers come down there, what was bought, and what is noted of it.

use std::rc::Rc;

use haulwren_core::book::{Stop, StopSetup, TripCommand};
use haulwren_core::id::StopId;
use haulwren_core::money::Rate;
use haulwren_core::stamp::At;
use haulwren_core::trip::Manner;
use haulwren_core::view::{StopRow, minutes_of, trip};
use leptos::prelude::untrack;

use super::super::{beside, head, row};
use crate::format;
use crate::live::worked;
use crate::route::{self, Route};
use crate::screens::{choices, history, parts};
use crate::shell::clock;
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask, fixed};
use crate::ui::el::{El, Nodes, button, div};
use crate::ui::icons::Icon;
use haulwren_core::money::Currency;
use haulwren_core::view::Group;

/// The page.
pub fn stop(id: StopId) -> El {
    let store = use_store();
    let view = worked(move || {
        store.read(|book| {
            let known = book.stop(id)?;
            let view = trip(book, known.trip?)?;
            let row = view.stops.into_iter().find(|row| row.stop.id == id)?;
            Some((row, known.clone(), view.currency))
        })
    });
    let title = move || {
        view.with(|view| match view {
            Some((row, ..)) => row.stop.title(),
            None => "Stop".to_owned(),
        })
    };
    let body = move || -> Nodes {
        view.with(|view| match view {
            Some((row, stop, currency)) => untrack(|| inside(store, row, stop, *currency)),
            None if store.all_read.get() => {
                parts::line("This stop is no longer in the book.").into()
            }
            None => parts::status("Reading").into(),
        })
    };
    let choices = choices::of_record(id.record());
    let inside = div("form flush").with(choices);
    let inside = inside.show(body).with(bought(store, id));
    beside(title, inside.with(history::folded(id.record())))
}

fn inside(store: Store, of: &StopRow, stop: &Stop, currency: Currency) -> Nodes {
    let times = match (of.stop.arrived, of.stop.left) {
        (None, _) => "Planned".to_owned(),
        (Some(from), None) => format!("Arrived {}", format::time(from)),
        (Some(from), Some(to)) => format!("From {} to {}", format::time(from), format::time(to)),
    };
    let said = format!("{times}; {}.", of.stop.manner.sentence());
    let note = (!of.stop.note.is_empty()).then(|| parts::line(&of.stop.note));
    let (id, known, trip) = (of.stop.id, stop.clone(), stop.trip);
    let change = button("press go")
        .attr("data-change-stop", "")
        .on_click(move || ask_stop(store, id, &known))
        .with("Name, times, how sellers are");
    let remove = button("press")
        .on_click(move || {
            store.dispatch(TripCommand::RemoveStop(id).into(), move |saved| {
                if saved {
                    route::replace(trip.map_or(Route::Trips, Route::Trip));
                }
            });
        })
        .with("Take the stop out");
    let record = parts::link(
        "press",
        Route::Record(id),
        Icon::Sheet,
        "Record of what was paid",
    );
    [
        parts::support(&said).into(),
        Nodes::from(note),
        head::totals(&of.sums, currency).into(),
        change.into(),
        div("pair keys-row").with([record, remove]).into(),
    ]
    .into()
}

/// What was bought at it.
fn bought(store: Store, id: StopId) -> El {
    let view = store.haul_view();
    div("rows-flush").show(move || {
        view.with(|view| {
            let Some(view) = view else { return Vec::new() };
            view.bought_at(id)
                .map(|group| match group {
                    Group::Lot(lot) | Group::Unsorted(lot) => row::lot(lot, view.currency),
                    Group::Thing(thing) => row::row(thing, view.currency),
                })
                .collect()
        })
    })
}

const MANNERS: [(&str, &str); 4] = [
    ("They haggle", "As your house rules say"),
    ("Fixed prices", "Nobody comes down"),
    ("They come down by", "A share that you type, such as 30"),
    ("Half price from", "A time that you type, such as 13:00"),
];

/// Asks all about a stop.
fn ask_stop(store: Store, id: StopId, stop: &Stop) {
    let time = |at: Option<At>| at.map(format::time).unwrap_or_default();
    let (place, how) = match stop.manner.unwrap_or_default() {
        Manner::Haggle => (0, String::new()),
        Manner::Fixed => (1, String::new()),
        Manner::Down(rate) => (2, rate.to_string()),
        Manner::HalfFrom(minutes) => (3, format!("{}:{:02}", minutes / 60, minutes % 60)),
    };
    let known = stop.clone();
    let answer = move |answer: &Answer| {
        let setup = StopSetup {
            name: answer.texts[0].clone(),
            arrived: at(answer, 1, known.arrived)?,
            left: at(answer, 2, known.left.or(known.arrived))?,
            manner: Some(manner(answer)?),
            note: answer.texts[4].clone(),
            premium: premium(answer, 5)?,
        };
        store.dispatch(TripCommand::SaveStop { id, setup }.into(), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "About the stop".to_owned(),
        hint: String::new(),
        texts: vec![
            AskText::words("Name", stop.name.as_deref().unwrap_or_default()),
            AskText::words("Arrived", &time(stop.arrived)),
            AskText::words("Left", &time(stop.left)),
            AskText::words("How far down, or from when", &how),
            AskText::words("Note", stop.note.as_deref().unwrap_or_default()),
            AskText::words(
                "Buyer’s premium, in %",
                &stop
                    .premium
                    .map(|rate| rate.to_string())
                    .unwrap_or_default(),
            ),
        ],
        choice: Some(("Sellers here", fixed(&MANNERS), place)),
        word: "Save",
        answer: Rc::new(answer),
    });
}

/// A time on the day of the stop; today where it has none yet.
fn at(answer: &Answer, place: usize, known: Option<At>) -> Result<Option<At>, (usize, String)> {
    let text = &answer.texts[place];
    if text.is_empty() {
        return Ok(None);
    }
    let minutes = minutes_of(text).ok_or((place, "Type a time, such as 7:52.".to_owned()))?;
    let day = known.unwrap_or_else(clock::now);
    // The seconds of a time that was not touched stay.
    Ok(Some(if day.minute_of_day() == minutes {
        day
    } else {
        day.at_minute(minutes)
    }))
}

fn manner(answer: &Answer) -> Result<Manner, (usize, String)> {
    const HOW: usize = 3;
    let text = answer.texts[HOW].trim_end_matches('%').trim();
    Ok(match answer.choice {
        0 => Manner::Haggle,
        1 => Manner::Fixed,
        2 => Manner::Down(Rate::parse(text).map_err(|error| (HOW, error.to_string()))?),
        _ => Manner::HalfFrom(
            minutes_of(text).ok_or((HOW, "Type a time, such as 13:00.".to_owned()))?,
        ),
    })
}

/// A share in percent, if any is typed.
fn premium(answer: &Answer, place: usize) -> Result<Option<Rate>, (usize, String)> {
    let text = answer.texts[place].trim_end_matches('%').trim();
    if text.is_empty() {
        return Ok(None);
    }
    let read = Rate::parse(text).map(Some);
    read.map_err(|error| (place, error.to_string()))
}
