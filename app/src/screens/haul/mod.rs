//! Haul: what was bought, newest first, and what it comes to; one thing with its history; the bar that takes a save back.

mod history;
mod last_save;
mod row;
mod sums;
mod thing;

use haulwren_core::view::HaulRow;
use leptos::prelude::*;

use super::page::titled;
use crate::route::{Route, use_routes};
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::icons::{Icon, sign};
use crate::ui::notice::empty;

pub use last_save::last_save;

/// The screen: the list, and beside or over it the thing that the address names.
pub fn haul() -> Nodes {
    let routes = use_routes();
    let thing = Memo::new(move |_| match routes.now() {
        Route::Thing(id) => Some(id),
        _ => None,
    });
    let both = div("haul")
        .class_if("has-thing", move || thing.get().is_some())
        .with(list())
        .show(move || thing.get().map(thing::page));
    [both, last_save()].into()
}

fn list() -> El {
    let store = use_store();
    let view = store.haul_view();
    let rows = Memo::new(move |_| {
        view.with(|view| {
            view.as_ref()
                .map(|view| view.rows.clone())
                .unwrap_or_default()
        })
    });
    let is_empty = Memo::new(move |_| rows.with(Vec::is_empty));
    let body = move || -> Nodes {
        match (is_empty.get(), store.all_read.get()) {
            (true, true) => empty("Nothing bought yet. Type an asking price.", to_decide()).into(),
            (true, false) => el("p")
                .class("pad")
                .attr("role", "status")
                .with("Reading what you bought")
                .into(),
            (false, _) => {
                let all = move || rows.with(|rows| listed(rows));
                [sums::sums(), div("rows").show(all)].into()
            }
        }
    };
    let tray = move || (!is_empty.get()).then(|| div("tray haul-tray").with(to_decide()));
    el("section")
        .class("haul-list")
        .with(titled(|| "Haul".to_owned()))
        .with(div("scroll").show(body))
        .show(tray)
}

/// The way to the next thing.
fn to_decide() -> El {
    el("a")
        .class("press go")
        .attr("href", &Route::Decide.href())
        .with(sign(Icon::Plus))
        .with("Thing")
}

/// The rows, with the day over the first of each day.
fn listed(rows: &[HaulRow]) -> Vec<El> {
    let mut before = None;
    let mut all = Vec::new();
    for row in rows {
        let day = row.bought.and_then(haulwren_core::stamp::At::day);
        if let Some(day) = day.filter(|day| before != Some(*day)) {
            all.push(row::day(day));
            before = Some(day);
        }
        all.push(row::row(row));
    }
    all
}
