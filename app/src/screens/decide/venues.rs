//! What is kept at every venue, best first; and in their heading's place, what is wrong with what was typed.

use haulwren_core::id::VenueId;
use haulwren_core::view::DecideView;
use leptos::prelude::*;

use super::Desk;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::el::{El, div, el};
use crate::ui::venue_card::{VenueFacts, venue_card};

/// The cards.
pub fn venues(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let ids = Memo::new(move |_| {
        view.with(|view| {
            view.iter()
                .flat_map(|view| &view.venues)
                .map(|card| card.id)
                .collect::<Vec<_>>()
        })
    });
    let card = move |id: VenueId| {
        let facts = Memo::new(move |_| view.with(|view| facts_of(view.as_ref()?, id)));
        let first = facts.get_untracked()?;
        let shown = Memo::new(move |_| facts.get().unwrap_or_else(|| first.clone()));
        let choose = Callback::new(move |()| store.edit_draft(|draft| draft.venue = Some(id)));
        Some(venue_card(shown.into(), choose))
    };
    let fault = Memo::new(move |_| {
        let wrong = |view: &DecideView| view.faults.first().map(|(_, fault)| fault.clone());
        desk.refused
            .get()
            .or_else(|| view.with(|view| view.as_ref().and_then(wrong)))
    });
    let heading = move || match fault.get() {
        Some(fault) => el("p").class("fault").attr("role", "status").with(fault),
        None => el("p").class("label").with("You keep, by venue"),
    };
    let cards = div("venues")
        .attr("role", "radiogroup")
        .attr("aria-label", "You keep, by venue");
    let none = move || {
        let add = || {
            el("a")
                .class("press")
                .attr("href", &Route::Venue(None).href())
                .with("Add a venue")
        };
        ids.with(Vec::is_empty).then(add)
    };
    div("decide-low")
        .show(heading)
        .with(cards.show(move || ids.get().into_iter().filter_map(card).collect::<Vec<_>>()))
        .show(none)
}

fn facts_of(view: &DecideView, id: VenueId) -> Option<VenueFacts> {
    let card = view.venues.iter().find(|card| card.id == id)?;
    Some(VenueFacts {
        name: card.name.clone(),
        keep: card.keep,
        arrangement: card.arrangement,
        post_in: card.post_in,
        is_judged: card.judged,
        currency: view.currency,
    })
}
