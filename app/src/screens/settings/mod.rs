//! Set up: venues, house rules and allowances, a copy of the book.

mod keeping;
mod rules;
mod venue;
mod venue_fields;

use haulwren_core::id::VenueId;
use leptos::prelude::*;

use super::haul::last_save;
use super::page::titled;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el, span};
use crate::ui::icons::{Icon, sign};

pub use venue::venue;

/// The screen.
pub fn settings() -> Nodes {
    let heading = |text: &str| el("h2").with(text);
    let form = div("form")
        .with(heading("Venues"))
        .with(venues())
        .with(heading("House rules"))
        .with(rules::rules())
        .with(heading("Your book"))
        .with(keeping::keeping_safe());
    [
        titled(|| "Set up".to_owned()),
        div("scroll").with(form),
        last_save(),
    ]
    .into()
}

/// Every venue, with the usual one marked.
fn venues() -> Nodes {
    let store = use_store();
    let venues = Memo::new(move |_| {
        store.read_setup(|book| {
            let usual = book.usual_venue();
            let row = |(id, venue): (VenueId, &haulwren_core::book::Venue)| {
                (
                    id,
                    venue.name.clone().unwrap_or_default(),
                    Some(id) == usual,
                )
            };
            book.venues().map(row).collect::<Vec<_>>()
        })
    });
    let rows = move || -> Nodes {
        match venues.get() {
            none if none.is_empty() => el("p")
                .with("No venue yet. A verdict needs one: where would you sell?")
                .into(),
            venues => venues.into_iter().map(row).collect::<Vec<_>>().into(),
        }
    };
    let add = el("a")
        .class("press")
        .attr("href", &Route::Venue(None).href());
    [
        div("").show(rows),
        add.with(sign(Icon::Plus)).with("Add a venue"),
    ]
    .into()
}

fn row((id, name, is_usual): (VenueId, String, bool)) -> El {
    let mark = is_usual.then(|| span("mark").with("usual"));
    el("a")
        .class("row")
        .attr("href", &Route::Venue(Some(id)).href())
        .attr("data-venue", &id.to_string())
        .with(span("what").with(name).with(" ").with(mark))
        .with(sign(Icon::Next))
}
