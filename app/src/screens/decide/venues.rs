//! What is kept at every venue, best first; and in their heading's place, what is wrong with what was typed.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::id::VenueId;
use haulwren_core::view::DecideView;
use leptos::prelude::*;

use super::Desk;
use crate::route::Route;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, Now, div};
use crate::ui::icons::Icon;
use crate::ui::venue_card::{VenueFacts, venue_card};

/// The cards.
pub fn venues(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let ids = worked(move || {
        view.with(|view| {
            view.iter()
                .flat_map(|view| &view.venues)
                .map(|card| card.id)
                .collect::<Vec<_>>()
        })
    });
    let card = move |id: VenueId| {
        let facts = move || view.with(|view| facts_of(view.as_ref()?, id));
        let first = untrack(facts)?;
        let shown: Now<VenueFacts> = Rc::new(move || facts().unwrap_or_else(|| first.clone()));
        let choose = move |()| store.edit_draft(|draft| draft.venue = Some(id));
        Some(venue_card(shown, Rc::new(choose)))
    };
    let fault = worked(move || {
        let wrong = |view: &DecideView| view.faults.first().map(|(_, fault)| fault.clone());
        let refused = desk
            .refused
            .get()
            .or_else(|| view.with(|view| view.as_ref().and_then(wrong)));
        refused.unwrap_or_default()
    });
    let heading = move || match fault.get() {
        none if none.is_empty() => parts::line("You keep, by venue").class("label"),
        fault => parts::status(&fault).class("fault"),
    };
    let cards = div("venues")
        .attr("role", "radiogroup")
        .attr("aria-label", "You keep, by venue");
    let none = move || {
        ids.with(Vec::is_empty)
            .then(|| parts::link("press", Route::Venue(None), Icon::Plus, "Add a venue"))
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
        arrangement: card.arrangement.clone(),
        post_in: card.post_in,
        is_judged: card.judged,
        currency: view.currency,
    })
}
