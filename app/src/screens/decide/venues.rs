//! What is kept at every venue, best first; and in their heading's place, what is wrong with what was typed.

use crate::follow::follow;
use crate::live::settled;
use std::cell::Cell;
use std::rc::Rc;

use haulwren_core::id::VenueId;
use haulwren_core::view::{DecideView, VenueCard as Venue};
use leptos::prelude::{Owner, document};

use super::Desk;
use crate::route::Route;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, div};
use crate::ui::icons::Icon;
use crate::ui::venue_card::{VenueCard, VenueFacts};

/// The cards.
pub fn venues(desk: Desk) -> El {
    let view = use_store().decide_view();
    let fault = settled(move || {
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
    let is_none = settled(move || view.with(|view| all(view.as_ref()).is_empty()));
    let none = move || {
        is_none
            .get()
            .then(|| parts::link("press", Route::Venue(None), Icon::Plus, "Add a venue"))
    };
    div("decide-low").show(heading).with(cards()).show(none)
}

/// A card, and the venue that it shows now.
struct Placed {
    card: VenueCard,
    of: Rc<Cell<Option<VenueId>>>,
}

impl Placed {
    /// A card that shows no venue yet.
    fn new(store: Store) -> Self {
        let of = Rc::new(Cell::new(None));
        let shown = of.clone();
        let choose = move |()| store.edit_draft(|draft| draft.venue = shown.get());
        Self {
            card: VenueCard::new(Rc::new(choose)),
            of,
        }
    }
}

/// One card for each venue, best first. Most keys change what is kept on all of them, and many the order: the cards stay where they are and
/// show other venues, which costs a key less than moving them. The focus stays with its venue.
fn cards() -> El {
    let store = use_store();
    let view = store.decide_view();
    let place = div("venues")
        .attr("role", "radiogroup")
        .attr("aria-label", "You keep, by venue");
    // What listens on a card lasts longer than one drawing.
    let owner = Owner::current();
    let new = move || {
        let card = || Placed::new(store);
        owner.as_ref().map_or_else(card, |owner| owner.with(card))
    };
    let stands = place.clone();
    let mut cards: Vec<Placed> = Vec::new();
    follow(Box::new(move || {
        view.with(|view| {
            let wanted = all(view.as_ref());
            for gone in cards.drain(wanted.len().min(cards.len())..) {
                gone.card.whole.element().remove();
            }
            while cards.len() < wanted.len() {
                let new = new();
                new.card.whole.clone().stand_in(stands.element());
                cards.push(new);
            }
            let is_shown = |(placed, venue): (&Placed, &Venue)| placed.of.get() == Some(venue.id);
            let stay = cards.iter().zip(wanted).all(is_shown);
            let focused = if stay { None } else { focused(&cards) };
            for (placed, venue) in cards.iter().zip(wanted) {
                placed.of.set(Some(venue.id));
                if let Some(view) = view {
                    placed.card.draw(&facts_of(view, venue));
                }
            }
            let shows = |id| cards.iter().find(|placed| placed.of.get() == Some(id));
            if let Some(placed) = focused.and_then(shows) {
                placed.card.focus();
            }
        });
    }));
    place
}

/// The venue whose card has the page's own focus.
fn focused(cards: &[Placed]) -> Option<VenueId> {
    let on = document().active_element()?;
    let at = cards.iter().find(|placed| placed.card.is_at(&on))?;
    at.of.get()
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
        is_chosen: venue.chosen,
        is_unsaid: venue.unsaid,
        currency: view.currency,
    }
}
