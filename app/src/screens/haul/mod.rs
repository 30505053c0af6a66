//! Haul: the trip with its stops and purse, what was bought, newest first, and what it comes to; beside or over it one thing, lot, stop or
//! trip; the bar that takes a save back.

mod arrows;
mod asked;
mod bulk;
mod head;
mod import;
mod list;
mod lot;
mod lot_leave;
mod lot_page;
mod new_lot;
mod row;
mod sheets;
mod sums;
mod take_home;
mod thing;
mod tray;
mod trip;

use crate::live::worked;
use leptos::prelude::untrack;

use super::last_save::last_save;
use super::page::{titled_with, use_wide};
use super::parts;
use crate::format;
use crate::route::{self, Route};
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::notice::empty;

/// The screen: the list, and beside or over it what the address names.
pub fn haul() -> Nodes {
    let wide = use_wide();
    let open = worked(move || match route::now() {
        Route::Haul => None,
        route => Some(route),
    });
    // On a wide window the trip stands beside the list until something else is opened.
    let view = use_store().haul_view();
    let trip = worked(move || view.with(|view| view.as_ref()?.trip.as_ref().map(|trip| trip.id)));
    let detail = move || -> Nodes {
        match (open.get(), trip.get()) {
            (Some(route), _) => untrack(|| page(route)),
            (None, Some(trip)) if wide.get() => untrack(|| page(Route::Trip(trip))),
            _ => ().into(),
        }
    };
    let both = div("haul")
        .class_if("has-thing", move || open.get().is_some())
        .with(import::column())
        .with(list())
        .show(detail);
    [both, last_save()].into()
}

/// The page of something in the haul.
fn page(route: Route) -> Nodes {
    match route {
        Route::Thing(id) => thing::page(id).into(),
        Route::Lot(id) => lot_page::page(id).into(),
        Route::NewLot => new_lot::page().into(),
        Route::Trips => trip::all().into(),
        Route::Trip(id) => trip::page(id).into(),
        Route::Stop(id) => trip::stop(id).into(),
        Route::TakeHome => take_home::page().into(),
        Route::Sheet(id) => sheets::sheet(id),
        Route::Record(id) => sheets::record(id),
        _ => ().into(),
    }
}

/// A page beside or over the list.
fn beside(title: impl Fn() -> String + 'static, inside: impl Into<Nodes>) -> El {
    let body = div("scroll").with(
        div("form")
            .with(parts::back(Route::Haul, "Haul"))
            .with(inside),
    );
    el("section")
        .class("thing-page")
        .with(super::page::titled(title))
        .with(body)
}

fn list() -> El {
    let store = use_store();
    arrows::follow();
    let view = store.haul_view();
    let chosen = bulk::Chosen::none();
    let is_empty = worked(move || {
        view.with(|view| {
            view.as_ref().is_none_or(|view| {
                view.rows.is_empty()
                    && view.passed.is_empty()
                    && view.trip.is_none()
                    && view.groups.is_empty()
                    && view.days.is_empty()
            })
        })
    });
    let body = move || -> Nodes {
        if !is_empty.get() {
            view.with(|view| view.as_ref().map(|view| list::bought(view, chosen)))
                .into()
        } else if store.all_read.get() {
            [
                empty(
                    "Nothing bought yet. Type an asking price.",
                    parts::add_thing(),
                ),
                head::no_trip(),
                head::ways(),
            ]
            .into()
        } else {
            parts::status("Reading what you bought").class("pad").into()
        }
    };
    let trays = move || {
        if chosen.is_on() {
            bulk::tray(chosen)
        } else {
            tray::tray()
        }
    };
    let title = move || match store.today() {
        Some(today) => format::day(today),
        None => "Haul".to_owned(),
    };
    let cash = div("bare").show(move || view.with(|view| view.as_ref().and_then(head::cash_left)));
    el("section")
        .class("haul-list")
        .with(titled_with(title, cash))
        .with(import::line())
        .with(div("scroll").show(body))
        .show(trays)
}
