//! The list of what was bought: this trip's lots and things first, then the days before; under them what was passed by.

use haulwren_core::money::Currency;
use haulwren_core::view::{Group, HaulRow, HaulView};

use super::bulk::Chosen;
use super::{head, lot, row};
use crate::format;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};

/// Everything under the strip.
pub fn bought(view: &HaulView, chosen: Chosen) -> Nodes {
    let mut rows = Vec::new();
    // The newest lot lies open, since it was just shared; any other is opened by a touch.
    let mut is_open = true;
    groups(&view.groups, view.currency, chosen, &mut is_open, &mut rows);
    for day in &view.days {
        rows.push(row::day(day.day));
        groups(&day.groups, view.currency, chosen, &mut is_open, &mut rows);
    }
    if !view.passed.is_empty() {
        rows.push(el("h2").class("haul-day").with("Passed by"));
        let passed = view.passed.iter();
        rows.extend(passed.map(|one| row::passed(one, view.currency)));
    }
    let rows = div("rows").attr("data-rows", "").with(rows);
    let several = button("press")
        .attr("data-choose", "")
        .on_click(move || chosen.turn(true))
        .with("Choose several");
    let ways = head::ways().with(several);
    [div("bare").with(head::head(view)), rows, pile(), ways].into()
}

fn groups(
    groups: &[Group],
    currency: Currency,
    chosen: Chosen,
    is_open: &mut bool,
    rows: &mut Vec<El>,
) {
    for group in groups {
        rows.push(match group {
            Group::Lot(lot) if *is_open && !lot.rows.is_empty() => {
                *is_open = false;
                lot::card(lot, currency, Some(chosen))
            }
            Group::Lot(lot) | Group::Unsorted(lot) => row::lot(lot, currency),
            Group::Thing(thing) => with_box(thing, currency, chosen),
        });
    }
}

/// A thing's row, with a box to tick while several are chosen.
fn with_box(thing: &HaulRow, currency: Currency, chosen: Chosen) -> El {
    let (id, name) = (thing.id, thing.name.clone());
    div("with-box")
        .show(move || chosen.tick_box(id, &name))
        .with(row::row(thing, currency))
}

/// What lies on the pile, not bought yet.
fn pile() -> El {
    let view = use_store().pile_view();
    div("bare").show(move || {
        view.with(|view| {
            let view = view.as_ref().filter(|view| !view.rows.is_empty())?;
            let most = format::amount(view.ceiling, view.currency);
            let words = span("what")
                .with(el("b").with(format!("Pile {}", view.rows.len())))
                .with(", not bought yet");
            let link = el("a")
                .class("press pile-row-key")
                .attr("href", &Route::Pile.href())
                .with(sign(Icon::Pile))
                .with(words)
                .with(span("").with("up to ").with(el("b").with(most)));
            Some(link)
        })
    })
}
