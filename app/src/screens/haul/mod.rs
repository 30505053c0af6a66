//! Haul: what was bought, newest first, and what it comes to; one thing with its history; the bar that takes a save back.

mod history;
mod last_save;
mod row;
mod sums;
mod thing;

use crate::live::worked;
use haulwren_core::view::HaulView;
use leptos::prelude::*;

use super::page::titled;
use super::parts;
use crate::route::{self, Route};
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::notice::empty;

pub use last_save::last_save;

/// The screen: the list, and beside or over it the thing that the address names.
pub fn haul() -> Nodes {
    let thing = move || match route::now() {
        Route::Thing(id) => Some(id),
        _ => None,
    };
    let both = div("haul")
        .class_if("has-thing", move || thing().is_some())
        .with(list())
        .show(move || thing().map(|id| untrack(|| thing::page(id))));
    [both, last_save()].into()
}

fn list() -> El {
    let store = use_store();
    let view = store.haul_view();
    let is_empty = worked(move || {
        view.with(|view| {
            view.as_ref()
                .is_none_or(|view| view.rows.is_empty() && view.passed.is_empty())
        })
    });
    let body = move || -> Nodes {
        if !is_empty.get() {
            view.with(|view| view.as_ref().map(bought)).into()
        } else if store.all_read.get() {
            empty(
                "Nothing bought yet. Type an asking price.",
                parts::add_thing(),
            )
            .into()
        } else {
            parts::status("Reading what you bought").class("pad").into()
        }
    };
    let tray = move || (!is_empty.get()).then(|| div("tray haul-tray").with(parts::add_thing()));
    el("section")
        .class("haul-list")
        .with(titled(|| "Haul".to_owned()))
        .with(div("scroll").show(body))
        .show(tray)
}

/// The sums over the rows, with the day over the first of each day; under them what was passed by.
fn bought(view: &HaulView) -> Nodes {
    let mut before = None;
    let mut all = Vec::new();
    for row in &view.rows {
        let day = row.bought.and_then(haulwren_core::stamp::At::day);
        if let Some(day) = day.filter(|day| before != Some(*day)) {
            all.push(row::day(day));
            before = Some(day);
        }
        all.push(row::row(row, view.currency));
    }
    if !view.passed.is_empty() {
        all.push(el("h2").class("haul-day").with("Passed by"));
        let rows = view.passed.iter();
        all.extend(rows.map(|row| row::passed(row, view.currency)));
    }
    [sums::sums(view), div("rows").with(all)].into()
}
