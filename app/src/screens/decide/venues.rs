//! What is kept at every venue, best first; and in their heading's place, what is wrong with what was typed.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::id::VenueId;
use haulwren_core::view::DecideView;

use super::Desk;
use crate::route::Route;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, div, follow};
use crate::ui::icons::Icon;
use crate::ui::venue_card::{VenueCard, VenueFacts};

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
    // One for all cards: most keys change what is kept on every one.
    let drawn = move || {
        let card = |id: VenueId| {
            let choose = move |()| store.edit_draft(|draft| draft.venue = Some(id));
            (id, VenueCard::new(Rc::new(choose)))
        };
        let cards: Vec<(VenueId, VenueCard)> = ids.get().into_iter().map(card).collect();
        let shown = cards.iter().map(|(_, card)| card.whole.clone()).collect();
        follow(Box::new(move || {
            view.with(|view| {
                for (id, card) in &cards {
                    if let Some(facts) = view.as_ref().and_then(|view| facts_of(view, *id)) {
                        card.draw(&facts);
                    }
                }
            });
        }));
        shown
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
        .with(cards.show::<Vec<El>>(drawn))
        .show(none)
}

fn facts_of(view: &DecideView, id: VenueId) -> Option<VenueFacts<'_>> {
    let card = view.venues.iter().find(|card| card.id == id)?;
    Some(VenueFacts {
        name: &card.name,
        keep: card.keep,
        arrangement: &card.arrangement,
        post_in: card.post_in,
        is_judged: card.judged,
        currency: view.currency,
    })
}
