//! Postage in the settings: rate cards, containers and kinds.

pub mod card;
mod card_desk;
mod cells;
mod mix;
mod more;
pub mod pack;
mod pack_desk;
mod paste;
mod rough;
mod service;
mod surcharges;
mod table;
mod tried;

use haulwren_core::book::State;
use haulwren_core::money::Currency;
use haulwren_core::packing::{Form, TYPICAL};
use haulwren_core::terms::stale;

use crate::format;
use crate::route::Route;
use crate::screens::last_save::last_save;
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el, span};
use crate::ui::icons::{Icon, sign};

/// The way in from the settings.
pub fn way_in() -> El {
    row(Route::Postage, "Rate cards, containers, kinds", &[], "", "")
}

/// The screen.
pub fn postage() -> Nodes {
    let form = div("form")
        .with(parts::back(Route::Settings, "Set up"))
        .with(parts::heading("Rate cards"))
        .with(list(cards))
        .with(add(Route::Card(None), "Add a rate card"))
        .with(parts::heading("Containers"))
        .with(list(containers))
        .with(add(Route::Container(None), "Add a container"))
        .with(parts::heading("Kinds"))
        .with(parts::support(TYPICAL))
        .with(list(kinds))
        .with(add(Route::Kind(None), "Add a kind"));
    [
        titled(|| "Postage".to_owned()),
        div("scroll").with(form),
        last_save(),
    ]
    .into()
}

fn add(to: Route, word: &str) -> El {
    parts::link("press", to, Icon::Plus, word)
}

/// Rows that follow the book.
fn list(rows: fn(&State, Currency) -> Vec<El>) -> El {
    let store = use_store();
    div("").show(move || {
        store.read_setup(|book| {
            book.currency()
                .map_or_else(Vec::new, |currency| rows(book, currency))
        })
    })
}

/// A row that leads to a page: its name, marks, a line below, and an amount.
fn row(to: Route, name: &str, marks: &[&str], below: &str, amount: &str) -> El {
    let mut what = span("what").with(name);
    for mark in marks {
        let class = if *mark == "usual" {
            "mark"
        } else {
            "mark dashed"
        };
        what = what.with(" ").with(span(class).with(*mark));
    }
    let below = (!below.is_empty()).then(|| el("small").class("below").with(below));
    let amount = (!amount.is_empty()).then(|| span("paid").with(amount));
    el("a")
        .class("row")
        .attr("href", &to.href())
        .with(what.with(below))
        .with(amount)
        .with(sign(Icon::Next))
}

fn cards(book: &State, _: Currency) -> Vec<El> {
    let usual = book.usual_card().map(|(id, _)| id);
    let today = use_store().today();
    let mut rows = Vec::new();
    for (id, known) in book.cards() {
        let Some(card) = &known.card else { continue };
        let mut marks = Vec::new();
        if Some(id) == usual {
            marks.push("usual");
        }
        if card.rough {
            marks.push("rough");
        }
        let ago = known.checked.zip(today);
        let ago = ago.and_then(|(checked, today)| stale(checked, today));
        let below = match ago {
            Some(ago) => format!("Last checked {ago} days ago: look again."),
            None => String::new(),
        };
        rows.push(row(Route::Card(Some(id)), &card.name, &marks, &below, ""));
    }
    if rows.is_empty() {
        rows.push(parts::line(
            "No rate card yet. Six numbers are enough to begin with: what do your parcels cost?",
        ));
    }
    rows
}

fn containers(book: &State, currency: Currency) -> Vec<El> {
    let mut rows = Vec::new();
    for (id, container) in book.containers() {
        let form = match container.form {
            Form::Mailer => "Mailer",
            Form::Carton => "Carton",
        };
        let below = format!(
            "{form}, {} inside, weighs {}",
            container.inside, container.tare
        );
        let cost = format::amount(container.cost, currency);
        let to = Route::Container(Some(id));
        rows.push(row(to, &container.name, &[], &below, &cost));
    }
    if rows.is_empty() {
        rows.push(parts::line(
            "No container yet. Which mailers and cartons do you pack in?",
        ));
    }
    rows
}

fn kinds(book: &State, _: Currency) -> Vec<El> {
    let units = book.units();
    let mut rows = Vec::new();
    for kind in book.kinds() {
        let marks: &[&str] = if kind.typical { &["typical"] } else { &[] };
        let (weight, size) = (kind.piece.weight.shown(units), kind.piece.size.shown(units));
        let below = format!("{weight}, {size}");
        rows.push(row(
            Route::Kind(Some(kind.id)),
            &kind.name,
            marks,
            &below,
            "",
        ));
    }
    if rows.is_empty() {
        rows.push(parts::line("No kinds. Add what you buy most."));
    }
    rows
}
