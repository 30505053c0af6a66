//! What stands over the tray: the rail, the venues and the fields; or, covered, the asking figure alone.

use haulwren_core::view::{DecideDraft, Field};
use leptos::prelude::*;

use super::Desk;
use super::cells::cells;
use super::venues::venues;
use crate::screens::haul::last_save;
use crate::screens::page::titled;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, el, span};
use crate::ui::rail::{RailFacts, price_rail};

/// Everything that the seller should not read.
pub fn top(desk: Desk) -> Nodes {
    let store = use_store();
    let is_idle = Memo::new(move |_| store.draft(DecideDraft::is_empty));
    let scrolled = div("decide-top")
        .with(titled(|| "Worth it?".to_owned()))
        .with(rail(desk))
        .with(venues(desk))
        // Once the next thing is being typed, the room is the rail's; Undo then waits on Haul.
        .show(move || is_idle.get().then(last_save));
    [scrolled, cells(desk)].into()
}

/// The rail, or what is still needed to draw it.
fn rail(desk: Desk) -> El {
    let view = use_store().decide_view();
    let facts = Memo::new(move |_| {
        view.with(|view| {
            let view = view.as_ref()?;
            let judged = view.appraisal.judged.as_ref()?;
            Some(RailFacts::of(judged, view.currency, false))
        })
    });
    let has_facts = Memo::new(move |_| facts.with(Option::is_some));
    let drawn = move || {
        let first = facts.get_untracked()?;
        // The rail stays on the page while its facts change.
        let shown = Memo::new(move |_| facts.get().unwrap_or_else(|| first.clone()));
        let touched = Callback::new(move |touched| desk.opened.set(Some(touched)));
        Some(price_rail(shown.into(), touched, "rail"))
    };
    let missing = move || {
        view.with(|view| {
            let missing = view.as_ref().map(|view| &view.appraisal.missing);
            let lines = missing
                .into_iter()
                .flatten()
                .map(|missing| el("p").with(missing.sentence()));
            lines.collect::<Vec<_>>()
        })
    };
    let blank = move || {
        div("rail-empty")
            .with(div("").attr("role", "status").show(missing))
            .with(el("i"))
            .with(span("hidden").attr("data-verdict", "none"))
    };
    div("decide-rail").show(move || {
        if has_facts.get() {
            drawn()
        } else {
            Some(blank())
        }
    })
}

/// The asking figure alone.
pub fn covered() -> El {
    let store = use_store();
    let ask = Memo::new(move |_| store.draft(|draft| draft.text(Field::Ask).to_owned()));
    let length = move || ask.with(String::len);
    let figure = span("covered-figure")
        .class_if("long", move || length() > 5)
        .class_if("longer", move || length() > 8)
        .text_of(move || ask.get());
    div("covered")
        .attr("role", "group")
        .attr("aria-label", "Covered")
        .with(figure)
}
