//! What is kept at every venue, best first; and in their heading's place, what is wrong with what was typed.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::id::VenueId;
use haulwren_core::view::{DecideView, VenueCard as Venue};
use leptos::prelude::Owner;

use super::Desk;
use crate::route::Route;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, div, follow};
use crate::ui::icons::Icon;
use crate::ui::venue_card::{VenueCard, VenueFacts};

/// The cards.
pub fn venues(desk: Desk) -> El {
    let view = use_store().decide_view();
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
    let is_none = worked(move || view.with(|view| all(view.as_ref()).is_empty()));
    let none = move || {
        is_none
            .get()
            .then(|| parts::link("press", Route::Venue(None), Icon::Plus, "Add a venue"))
    };
    div("decide-low").show(heading).with(cards()).show(none)
}

/// One card for each venue, best first. Most keys change what is kept on all of them, and many the order: a card that is there is moved and
/// not built anew, which costs a key little; one that is not moved keeps the focus.
fn cards() -> El {
    let store = use_store();
    let view = store.decide_view();
    let place = div("venues")
        .attr("role", "radiogroup")
        .attr("aria-label", "You keep, by venue");
    // What listens on a card lasts longer than one drawing.
    let owner = Owner::current();
    let new = move |id: VenueId| {
        let choose = move |()| store.edit_draft(|draft| draft.venue = Some(id));
        let card = || VenueCard::new(Rc::new(choose));
        owner.as_ref().map_or_else(card, |owner| owner.with(card))
    };
    let stands = place.clone();
    let mut cards: Vec<(VenueId, VenueCard)> = Vec::new();
    follow(Box::new(move || {
        view.with(|view| {
            let wanted = all(view.as_ref());
            cards.retain(|(id, card)| {
                let is_wanted = wanted.iter().any(|venue| venue.id == *id);
                if !is_wanted {
                    card.whole.element().remove();
                }
                is_wanted
            });
            for (at, venue) in wanted.iter().enumerate() {
                let found = cards.iter().position(|(id, _)| *id == venue.id);
                let from = found.unwrap_or_else(|| {
                    cards.push((venue.id, new(venue.id)));
                    cards.len() - 1
                });
                if found != Some(at) {
                    let before = cards.get(at).filter(|_| from != at);
                    stands.put(&cards[from].1.whole, before.map(|(_, card)| &card.whole));
                    cards[at..=from].rotate_right(1);
                }
                if let Some(view) = view {
                    cards[at].1.draw(&facts_of(view, venue));
                }
            }
        });
    }));
    place
}

fn all(view: Option<&DecideView>) -> &[Venue] {
    view.map_or(&[], |view| &view.venues)
}

fn facts_of<'a>(view: &DecideView, venue: &'a Venue) -> VenueFacts<'a> {
    VenueFacts {
        name: &venue.name,
        keep: venue.keep,
        arrangement: &venue.arrangement,
        post_in: venue.post_in,
        is_judged: venue.judged,
        currency: view.currency,
    }
}
