//! One bought thing: its figures, its name, taking it out, and its history.

use crate::live::{Live, worked};
use std::rc::Rc;

use haulwren_core::book::Command;
use haulwren_core::id::ThingId;
use haulwren_core::money::Currency;
use haulwren_core::view::HaulRow;
use leptos::prelude::*;

use super::history::history;
use super::sums::sum;
use crate::format;
use crate::route::{self, Route};
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, button, div, el};
use crate::ui::field::{FieldSpec, field};

/// The thing's page.
pub fn page(id: ThingId) -> El {
    let store = use_store();
    let title = move || match name_of(store, id) {
        None => "Taken out".to_owned(),
        Some(name) if name.is_empty() => "No name yet".to_owned(),
        Some(name) => name,
    };
    let is_there = worked(move || name_of(store, id).is_some());
    let facts = move || {
        let drawn = store.haul_view().with(|view| {
            let view = view.as_ref()?;
            let row = view.rows.iter().find(|row| row.id == id)?;
            Some(figures(row, view.currency))
        });
        drawn.unwrap_or_else(|| {
            if store.all_read.get() {
                parts::line("This thing is not in the haul. Its history stays.")
            } else {
                parts::status("Reading")
            }
        })
    };
    let form = div("form")
        .with(parts::back(Route::Haul, "Haul"))
        .show(facts)
        .show(move || {
            is_there
                .get()
                .then(|| untrack(|| [rename(id), take_out(id)]))
        })
        .with(parts::heading("History"))
        .with(history(id));
    el("section")
        .class("thing-page")
        .with(titled(title))
        .with(div("scroll").with(form))
}

/// The thing's name; empty while it has none, `None` when it is not in the haul.
fn name_of(store: Store, id: ThingId) -> Option<String> {
    store.haul_view().with(|view| {
        let row = view.as_ref()?.rows.iter().find(|row| row.id == id)?;
        Some(row.name.clone())
    })
}

fn figures(row: &HaulRow, currency: Currency) -> El {
    let amount = |money| format::amount(money, currency);
    let sells = row
        .sells
        .map(|sells| sum("Sells for", amount(sells.likely()), false));
    let judged = row.expected.as_ref().map(|expected| {
        let word = format!("{}, you keep", expected.verdict.word());
        sum(
            &word,
            format::or_loss(expected.keep, currency),
            expected.keep.is_negative(),
        )
    });
    el("dl")
        .class("haul-sums flush")
        .attr("data-thing", &row.id.to_string())
        .with(sum("Paid", amount(row.paid), false))
        .with(sells)
        .with(judged)
}

/// Naming it. A save, so it can be undone.
fn rename(id: ThingId) -> El {
    let store = use_store();
    let typed = Live::new(None::<String>);
    let stored = move || name_of(store, id).unwrap_or_default();
    let value = move || typed.get().unwrap_or_else(stored);
    let is_changed =
        move || typed.with(|typed| typed.as_ref().is_some_and(|typed| *typed != stored()));
    let spec = FieldSpec {
        id: "thing-name",
        label: "Name",
        ..FieldSpec::default()
    };
    let save = move || {
        let command = Command::Rename {
            thing: id,
            name: untrack(value),
        };
        store.dispatch(command, move |saved| {
            if saved {
                // The page may have gone in the meantime.
                typed.set(None);
            }
        });
    };
    parts::form("pair", save)
        .with(field(
            spec,
            Rc::new(value),
            Rc::new(|| None),
            Rc::new(move |text| typed.set(Some(text))),
        ))
        .with(parts::submit("Save name").flag("disabled", move || !is_changed()))
}

/// Taking it out. A save, so it can be undone.
fn take_out(id: ThingId) -> El {
    let store = use_store();
    let take_out = move || {
        store.dispatch(Command::TakeOut(id), move |saved| {
            if saved {
                route::replace(Route::Haul);
            }
        });
    };
    button("press")
        .on_click(take_out)
        .with("Take out of the haul")
}
