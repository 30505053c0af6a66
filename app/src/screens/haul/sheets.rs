//! Paper: the sheet of a trip, and the record of what was paid at a stop. Black on white whatever the theme; the browser prints them.

use haulwren_core::id::{StopId, TripId};
use haulwren_core::ledger::Paying;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{Group, HaulView, TripView, trip};
use leptos::prelude::*;

use crate::format;
use crate::route::Route;
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el};

/// The sheet of a trip: every stop with what was bought there.
pub fn sheet(id: TripId) -> Nodes {
    let store = use_store();
    let body = move || -> Nodes {
        let view = store.read(|book| trip(book, id));
        match view {
            Some(view) => paper_of_trip(store, &view).into(),
            None => parts::status("Nothing to print.").into(),
        }
    };
    paper(|| "Sheet of the trip".to_owned(), Route::Trip(id), body)
}

/// The record of what was paid at a stop.
pub fn record(id: StopId) -> Nodes {
    let store = use_store();
    let body = move || -> Nodes {
        let found = store.read(|book| trip(book, book.stop(id)?.trip?));
        match found {
            Some(view) => paper_of_stop(store, &view, id),
            None => parts::status("Nothing to print.").into(),
        }
    };
    paper(
        || "Record of what was paid".to_owned(),
        Route::Stop(id),
        body,
    )
}

/// The page around a paper.
fn paper(
    title: impl Fn() -> String + 'static,
    back: Route,
    body: impl Fn() -> Nodes + 'static,
) -> Nodes {
    let print = button("press go")
        .attr("data-print", "")
        .on_click(|| {
            if let Err(error) = window().print() {
                leptos::logging::warn!("this browser does not print: {error:?}");
            }
        })
        .with("Print");
    let keys = div("pair keys-row no-print").with([parts::back(back, "Back"), print]);
    el("section")
        .class("thing-page paper-page")
        .with(titled(title))
        .with(div("scroll").with(div("form").with(keys).with(div("paper").show(body))))
        .into()
}

fn head_row(words: &[&str]) -> El {
    let cells: Vec<El> = words
        .iter()
        .map(|word| el("th").attr("scope", "col").with(*word))
        .collect();
    el("thead").with(el("tr").with(cells))
}

fn row(cells: [String; 4]) -> El {
    let cells: Vec<El> = cells.into_iter().map(|cell| el("td").with(cell)).collect();
    el("tr").with(cells)
}

/// The rows of what was bought at a stop: what, how it was paid for, what it sells for, what was paid.
fn rows_at(view: &HaulView, stop: StopId) -> Vec<El> {
    let mut rows = Vec::new();
    for group in view.bought_at(stop) {
        let lines = match group {
            Group::Lot(lot) | Group::Unsorted(lot) => lot_lines(lot, view.currency),
            Group::Thing(thing) => {
                let sells = thing
                    .sells
                    .map(|sells| format::amount(sells.likely(), view.currency));
                vec![[
                    named(&thing.name).to_owned(),
                    thing.by.word().to_owned(),
                    sells.unwrap_or_default(),
                    format::amount(thing.paid, view.currency),
                ]]
            }
        };
        rows.extend(lines.into_iter().map(row));
    }
    rows
}

/// A thing's name, or that it has none.
const fn named(name: &str) -> &str {
    if name.is_empty() { "no name" } else { name }
}

fn lot_lines(lot: &haulwren_core::view::LotGroup, currency: Currency) -> Vec<[String; 4]> {
    let by = lot.by.word();
    let count = lot.rows.len() + lot.unsorted;
    let name = match lot.name.as_str() {
        "" => format!("Lot of {count}"),
        name => format!("{name}, lot of {count}"),
    };
    let mut lines = vec![[
        name,
        by.to_owned(),
        String::new(),
        format::amount(lot.total, currency),
    ]];
    for thing in &lot.rows {
        let sells = thing
            .row
            .sells
            .map(|sells| format::amount(sells.likely(), currency));
        let name = named(&thing.row.name);
        let share = format::amount(thing.share.amount, currency);
        lines.push([
            format!("\u{2003}{name}, of which {share}"),
            String::new(),
            sells.unwrap_or_default(),
            String::new(),
        ]);
    }
    lines
}

fn paper_of_trip(store: Store, view: &TripView) -> El {
    let day = view.day.map(format::day_of_year).unwrap_or_default();
    let title = match view.trip.name.as_deref().unwrap_or_default() {
        "" => day,
        name => format!("{name}, {day}"),
    };
    let amount = |money| format::amount(money, view.currency);
    let mut parts: Vec<El> = vec![el("h2").with(title)];
    for stop in &view.stops {
        let times = match (stop.stop.arrived, stop.stop.left) {
            (Some(from), Some(to)) => format!(", {} to {}", format::time(from), format::time(to)),
            (Some(from), None) => format!(", {}", format::time(from)),
            _ => ", planned".to_owned(),
        };
        parts.push(el("h3").with(stop.stop.title() + &times));
        let rows = store
            .haul_view()
            .with(|haul| haul.as_ref().map(|haul| rows_at(haul, stop.stop.id)));
        parts.push(table(rows.unwrap_or_default(), &amount(stop.sums.spent)));
    }
    let mut words = vec![
        format!("Spent {}", amount(view.sums.spent)),
        format!("{} things", view.sums.things),
        format!(
            "cash left {}",
            format::or_loss(view.purse.left(), view.currency)
        ),
    ];
    if let Some(driven) = view.driven {
        words.push(format!("driven {driven}"));
    }
    parts.push(el("p").with(words.join(", ") + "."));
    div("bare").with(parts)
}

fn table(rows: Vec<El>, total: &str) -> El {
    let total = el("tr")
        .class("total")
        .with(el("td").attr("colspan", "3").with("Paid"))
        .with(el("td").with(total));
    el("table")
        .class("paper-table")
        .with(head_row(&["What", "Paid in", "Sells for", "Paid for it"]))
        .with(el("tbody").with(rows).with(total))
}

/// Date, place, what and how much: what a buyer without a receipt writes down. Whether that is enough where the trader lives is said by
/// the rules there.
fn paper_of_stop(store: Store, view: &TripView, id: StopId) -> Nodes {
    let Some(stop) = view.stops.iter().find(|row| row.stop.id == id) else {
        return ().into();
    };
    let day = stop
        .stop
        .arrived
        .and_then(haulwren_core::stamp::At::day)
        .or(view.day);
    let when = day.map(format::day_of_year).unwrap_or_default();
    let time = stop.stop.arrived.map(format::time).unwrap_or_default();
    let amount = |money| format::amount(money, view.currency);
    let (rows, cash) = store.haul_view().with(|haul| {
        let Some(haul) = haul else {
            return (Vec::new(), Money::ZERO);
        };
        (rows_at(haul, id), cash_at(haul, id))
    });
    let other = stop.sums.spent.minus(cash);
    let line = |word: &str, text: String| [el("dt").with(word), el("dd").with(text)];
    let facts: Vec<El> = [
        line("Date", format!("{when}, {time}")),
        line("Place", stop.stop.title()),
        line(
            "Paid in cash",
            format!("{} {}", amount(cash), view.currency.code()),
        ),
        line(
            "Paid otherwise",
            format!("{} {}", amount(other), view.currency.code()),
        ),
    ]
    .into_iter()
    .flatten()
    .collect();
    let note = "Bought second-hand from a private seller without a receipt. Ask a licensed adviser which records the rules where you live want.";
    [
        el("h2").with("Record of a purchase"),
        el("dl").class("marks").with(facts),
        table(rows, &amount(stop.sums.spent)),
        el("p").with("Written down by: ______________________"),
        el("p").class("small").with(note),
    ]
    .into()
}

fn cash_at(view: &HaulView, stop: StopId) -> Money {
    let paid = view.bought_at(stop).map(|group| match group {
        Group::Lot(lot) | Group::Unsorted(lot) => (lot.by, lot.total),
        Group::Thing(thing) => (thing.by, thing.paid),
    });
    paid.filter(|(by, _)| *by == Paying::Cash)
        .map(|(_, amount)| amount)
        .sum()
}
