//! Set up: venues, house rules and allowances, a copy of the book.

mod attention;
mod bring;
mod devices;
mod keeping;
mod postage;
mod rules;
mod send;
mod venue;

use super::first::UNITS;
use super::last_save::last_save;
use super::page::titled;
use super::parts;
use super::pocket;
use crate::live::Live;
use crate::route::Route;
use crate::shell::theme::Theme;
use crate::store::use_store;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, div, el, span};
use crate::ui::icons::{Icon, sign};
use haulwren_core::book::{Command, State};
use haulwren_core::measure::System;

use std::rc::Rc;

pub use bring::bring_in;
pub use keeping::copy_key;
pub use send::send;

/// The screen of a route in the settings, or of the pocket card; of any other, the settings' first.
pub fn screen(route: Route) -> Nodes {
    match route {
        Route::Venue(id) => venue::venue(id),
        Route::Postage => postage::postage(),
        Route::Card(id) => postage::card::card(id),
        Route::Container(id) => postage::pack::container(id),
        Route::Kind(id) => postage::pack::kind(id),
        Route::Pocket => pocket::pocket(),
        Route::BookFile => bring::page(),
        Route::Devices => devices::page(),
        Route::Attention => attention::page(),
        _ => settings(),
    }
}

fn settings() -> Nodes {
    let form = div("form")
        .show(needs)
        .with(parts::heading("Venues"))
        .with(venues())
        .with(parts::link(
            "press",
            Route::Venue(None),
            Icon::Plus,
            "Add a venue",
        ))
        .with(parts::heading("Postage"))
        .with(postage::way_in())
        .with(parts::heading("House rules"))
        .with(rules::rules())
        .with(parts::link(
            "press",
            Route::Pocket,
            Icon::Tag,
            "Pocket card",
        ))
        .with(parts::heading("Look"))
        .with(theme())
        .with(units())
        .with(parts::heading("Your book"))
        .with(keeping::keeping_safe())
        .with(parts::link(
            "press",
            Route::Devices,
            Icon::Saved,
            "Devices, and what they keep",
        ));
    [
        titled(|| "Set up".to_owned()),
        div("scroll").with(form),
        last_save(),
    ]
    .into()
}

/// The way to what needs the trader, when anything does.
fn needs() -> Option<El> {
    let needs = use_store().needs.get();
    let word = match needs {
        0 => return None,
        1 => "1 thing needs you".to_owned(),
        needs => format!("{needs} things need you"),
    };
    Some(parts::link("press", Route::Attention, Icon::Fork, &word).attr("data-needs", ""))
}

fn theme() -> El {
    let chosen = Live::new(Theme::now() as usize);
    let words = [
        ("As this device", ""),
        ("Light", "Easiest in bright sun"),
        ("Dark", ""),
    ];
    let choose: Do<usize> = Rc::new(move |at: usize| {
        Theme::ALL[at].choose();
        chosen.set(at);
    });
    let shown: Now<usize> = Rc::new(move || chosen.get());
    choice_keys("Light or dark", "theme", true, &words, &shown, &choose)
}

fn units() -> El {
    let store = use_store();
    let chosen: Now<usize> = Rc::new(move || store.read_setup(State::units) as usize);
    let choose: Do<usize> =
        Rc::new(move |at: usize| store.dispatch(Command::UseUnits(System::ALL[at]), |_| {}));
    choice_keys("Units", "units", false, &UNITS, &chosen, &choose)
}

/// Every venue, with the usual one marked.
fn venues() -> El {
    let store = use_store();
    div("").show(move || {
        let mut rows = Vec::new();
        store.read_setup(|book| {
            let usual = book.usual_venue();
            for (id, venue) in book.venues() {
                let mark = (Some(id) == usual).then(|| span("mark").with("usual"));
                let name = venue.name.as_deref().unwrap_or_default();
                let row = el("a")
                    .class("row")
                    .attr("href", &Route::Venue(Some(id)).href());
                let row = row.attr("data-venue", &id.to_string());
                rows.push(
                    row.with(span("what").with(name).with(" ").with(mark))
                        .with(sign(Icon::Next)),
                );
            }
        });
        if rows.is_empty() {
            rows.push(parts::line(
                "No venue yet. A verdict needs one: where would you sell?",
            ));
        }
        rows
    })
}
