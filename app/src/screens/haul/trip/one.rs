//! One trip: its stops with what was bought there, its purse, and what is noted of it.

use std::rc::Rc;

use haulwren_core::book::{State, Trip, TripCommand, TripSetup};
use haulwren_core::id::TripId;
use haulwren_core::ledger::Moved;
use haulwren_core::measure::Unit;
use haulwren_core::money::Currency;
use haulwren_core::view::{CashRow, StopRow, TripView, trip};
use leptos::prelude::untrack;

use super::super::{asked, beside as page_beside, head};
use super::plan;
use crate::format;
use crate::live::worked;
use crate::route::Route;
use crate::screens::{choices, history, parts};
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::Icon;

/// The page of a trip.
pub fn page(id: TripId) -> El {
    let store = use_store();
    let view = worked(move || store.read(|book| trip(book, id)));
    let title = move || {
        view.with(|view| match view {
            Some(view) => title(view),
            None => "Trip".to_owned(),
        })
    };
    let body = move || -> Nodes {
        view.with(|view| match view {
            Some(view) => untrack(|| inside(store, view)),
            None if store.all_read.get() => {
                parts::line("This trip is no longer in the book.").into()
            }
            None => parts::status("Reading").into(),
        })
    };
    let history = history::folded(id.record());
    let choices = choices::of_record(id.record());
    let inside = div("form flush").with(choices).show(body);
    page_beside(title, inside.with(history))
}

fn title(view: &TripView) -> String {
    let day = view.day.map(format::day).unwrap_or_default();
    match view.trip.name.as_deref().unwrap_or_default() {
        "" if day.is_empty() => "Trip".to_owned(),
        "" => day,
        name => name.to_owned(),
    }
}

fn inside(store: Store, view: &TripView) -> Nodes {
    let is_open = view.trip.started.is_some() && view.trip.ended.is_none();
    let currency = view.currency;
    let stops: Vec<El> = view
        .stops
        .iter()
        .map(|row| stop(store, row, currency))
        .collect();
    let none = stops
        .is_empty()
        .then(|| parts::line("No stop yet. \u{201c}Next sale\u{201d} notes one by the clock."));
    let next = move || {
        let command = TripCommand::NextStop {
            stop: None,
            name: String::new(),
        };
        store.dispatch(command.into(), |_| {});
    };
    let id = view.id;
    let noted = view.trip.clone();
    let mut keys = vec![
        button("press")
            .attr("data-next-sale", "")
            .on_click(next)
            .with("Next sale"),
        button("press").on_click(plan).with("Plan a stop"),
        button("press")
            .on_click(move || note(store, id, &noted))
            .with("Odometer, distance, note"),
    ];
    if is_open {
        let end = button("press")
            .attr("data-end-trip", "")
            .on_click(asked::end_trip);
        keys.push(end.with("End the trip"));
    }
    let cash: Vec<El> = view
        .cash
        .iter()
        .map(|row| moved(store, row, currency))
        .collect();
    [
        head::totals(&view.sums, currency).into(),
        facts(view).into(),
        parts::heading("Stops").into(),
        Nodes::from(none),
        div("rows-flush").with(stops).into(),
        div("pair keys-row").with(keys).into(),
        parts::heading("Purse").into(),
        purse(view).into(),
        div("rows-flush").with(cash).into(),
        button("press")
            .attr("data-purse", "")
            .on_click(asked::purse)
            .with("Count cash")
            .into(),
        parts::heading("On paper").into(),
        parts::link("press", Route::Sheet(id), Icon::Sheet, "Sheet of the trip").into(),
        parts::link("press", Route::Trips, Icon::Next, "All trips").into(),
    ]
    .into()
}

/// When, how far, and what is noted.
fn facts(view: &TripView) -> El {
    let mut words: Vec<String> = Vec::new();
    if let Some(started) = view.trip.started {
        words.push(format!("Started {}", format::time(started)));
    }
    if let Some(ended) = view.trip.ended {
        words.push(format!("ended {}", format::time(ended)));
    }
    if let Some(driven) = view.driven {
        words.push(format!("driven {driven}"));
    }
    let mut line = words.join(", ");
    if let Some(note) = &view.trip.note {
        line = [line.as_str(), ". ", note].concat();
    }
    parts::support(&line)
}

fn stop(store: Store, row: &StopRow, currency: Currency) -> El {
    let stop = &row.stop;
    let times = match (stop.arrived, stop.left) {
        (None, _) => "planned".to_owned(),
        (Some(from), None) => format!("since {}", format::time(from)),
        (Some(from), Some(to)) => format!("{} to {}", format::time(from), format::time(to)),
    };
    let bought = match row.sums.things {
        0 => String::new(),
        1 => "1 thing".to_owned(),
        things => format!("{things} things"),
    };
    let what = span("what")
        .with(stop.title())
        .with(el("br"))
        .with(span("support").with(times));
    let link = el("a")
        .class("row")
        .attr("href", &Route::Stop(stop.id).href())
        .attr("data-stop", &stop.id.to_string())
        .with(what)
        .with(span("sells").with(bought))
        .with(span("paid").with(format::amount(row.sums.spent, currency)));
    let (id, name) = (stop.id, stop.name.clone());
    let arrive = stop.arrived.is_none().then(|| {
        let go = move || {
            let command = TripCommand::NextStop {
                stop: Some(id),
                name: name.clone(),
            };
            store.dispatch(command.into(), |_| {});
        };
        button("press").on_click(go).with("Here now")
    });
    div("with-box").with(link).with(arrive)
}

fn purse(view: &TripView) -> El {
    let amount = |money| format::amount(money, view.currency);
    let line = |word: &str, money| {
        el("tr")
            .with(el("th").attr("scope", "row").with(word))
            .with(el("td").with(amount(money)))
    };
    let purse = &view.purse;
    let lines = [
        ("Put in", purse.took_out),
        ("Sold for cash", purse.sold),
        ("Paid in cash", purse.spent_cash.negated()),
        ("Other spending", purse.other_spent.negated()),
        ("Difference when counted", purse.counted),
    ];
    let lines = lines.into_iter().filter(|(_, money)| !money.is_zero());
    let rows: Vec<El> = lines.map(|(word, money)| line(word, money)).collect();
    let total = line("Left", purse.left()).class("total");
    el("table")
        .class("why-lines")
        .with(el("tbody").with(rows).with(total))
}

/// A movement of the purse, with a key that takes it away.
fn moved(store: Store, row: &CashRow, currency: Currency) -> El {
    let word = match row.what {
        Some(Moved::TookOut) => "put in",
        Some(Moved::OtherSpent) => "spent",
        Some(Moved::Sold) => "sold for cash",
        Some(Moved::Counted) => "counted",
        None => "moved",
    };
    let amount = row.counted.unwrap_or_else(|| row.amount.abs());
    let said = format!("{word} {}", format::amount(amount, currency));
    let when = row.at.map(format::time).unwrap_or_default();
    let note = [
        when.as_str(),
        if row.note.is_empty() { "" } else { ", " },
        &row.note,
    ]
    .concat();
    let id = row.id;
    let out = button("press")
        .attr("aria-label", &format!("Take out: {said}"))
        .on_click(move || store.dispatch(TripCommand::RemoveCash(id).into(), |_| {}))
        .with("Out");
    div("row")
        .with(
            span("what")
                .with(said)
                .with(el("br"))
                .with(span("support").with(note)),
        )
        .with(out)
}

/// Asks what is noted of a trip.
fn note(store: Store, id: TripId, trip: &Trip) {
    let unit = store.read(State::distance_unit);
    let number = |number: Option<u32>| number.map(|number| number.to_string()).unwrap_or_default();
    let distance = trip.distance.map(|distance| distance.to_string());
    let known = trip.clone();
    let answer = move |answer: &Answer| {
        let setup = TripSetup {
            name: answer.texts[0].clone(),
            day: known.day,
            started: known.started,
            ended: known.ended,
            odometer_out: asked::maybe_whole(answer, 1)?,
            odometer_back: asked::maybe_whole(answer, 2)?,
            distance: asked::maybe_distance(answer, 3, unit)?,
            note: answer.texts[4].clone(),
        };
        store.dispatch(TripCommand::SaveTrip { id, setup }.into(), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "About the trip".to_owned(),
        hint: String::new(),
        texts: vec![
            AskText::words("Name", trip.name.as_deref().unwrap_or_default()),
            AskText::number("Odometer on leaving", &number(trip.odometer_out)),
            AskText::number("Odometer on coming back", &number(trip.odometer_back)),
            AskText {
                unit: unit.symbol(),
                ..AskText::words("Driven, if you know it so", &distance.unwrap_or_default())
            },
            AskText::words("Note", trip.note.as_deref().unwrap_or_default()),
        ],
        choice: None,
        word: "Save",
        answer: Rc::new(answer),
    });
}
