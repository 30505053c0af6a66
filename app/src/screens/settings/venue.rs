//! One venue's page: its form, whether it is the usual one, and taking it away.

use crate::live::{Live, worked};
use haulwren_core::book::{Command, State};
use haulwren_core::id::VenueId;
use haulwren_core::view::{Complaint, VenueForm, VenueInput, keeps_of_twenty};
use leptos::prelude::*;

use super::super::haul::last_save;
use super::super::page::titled;
use super::super::parts;
use super::venue_fields::venue_fields;
use crate::format;
use crate::route::{self, Route};
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el};

/// The form at hand. What of it can't be used is said once it was tried.
#[derive(Clone, Copy)]
pub struct Desk {
    id: Option<VenueId>,
    store: Store,
    tried: Live<bool>,
}

impl Desk {
    /// Where the half-typed form is kept.
    fn key(self) -> String {
        self.id
            .map_or_else(|| "new".to_owned(), |id| id.to_string())
    }

    fn stored(self) -> VenueForm {
        let known = self.id.zip(self.store.today());
        let form = known
            .and_then(|(id, today)| self.store.read_setup(|book| VenueForm::of(book, id, today)));
        form.unwrap_or_default()
    }

    /// The form as it is typed, else as it is stored.
    pub fn form(self) -> VenueForm {
        self.store
            .venue_draft(&self.key())
            .unwrap_or_else(|| self.stored())
    }

    /// Changes what is typed.
    pub fn edit(self, change: impl FnOnce(&mut VenueForm)) {
        let mut form = untrack(|| self.form());
        change(&mut form);
        self.store.keep_venue_draft(&self.key(), Some(form));
    }

    /// What is wrong with a field.
    pub fn fault(self, input: VenueInput) -> Option<String> {
        if !self.tried.get() {
            return None;
        }
        let read = self.form().read(self.store.read_setup(State::currency)?);
        Complaint::about(&input, read.err()?)
    }

    fn save(self) {
        self.tried.set(true);
        let read = untrack(|| {
            self.form()
                .read(self.store.read_setup(State::currency)?)
                .ok()
        });
        // What can't be used is said beside its field.
        let Some(setup) = read else { return };
        // Whoever adds the first venue came to weigh something up.
        let is_first = untrack(|| self.store.read_setup(|book| book.venues().next().is_none()));
        self.store
            .dispatch(Command::SaveVenue { id: self.id, setup }, move |saved| {
                if saved {
                    self.store.keep_venue_draft(&self.key(), None);
                    route::replace(if is_first {
                        Route::Decide
                    } else {
                        Route::Settings
                    });
                }
            });
    }

    /// What the form would come to, on a sale at twenty.
    fn sample(self) -> Option<String> {
        let currency = self.store.read_setup(State::currency)?;
        let (price, cut, left) = keeps_of_twenty(&self.form().read(currency).ok()?, currency);
        let say = |money| format::amount(money, currency);
        let left = if left.is_negative() {
            format!("you lose {} before you pay for the thing", say(left.abs()))
        } else {
            format!("{} is left before you pay for the thing", say(left))
        };
        Some(format!(
            "Of a sale at {}, the venue takes {}, and after postage and packing {left}.",
            say(price),
            say(cut)
        ))
    }
}

/// The page; without an id it adds a venue.
pub fn venue(id: Option<VenueId>) -> Nodes {
    let desk = Desk {
        id,
        store: use_store(),
        tried: Live::new(false),
    };
    let title = move || {
        let name = desk.stored().name;
        if name.is_empty() {
            "A new venue".to_owned()
        } else {
            name
        }
    };
    let sample = el("p").class("support").attr("role", "status");
    let form = parts::form("form", move || desk.save())
        .with(parts::back(Route::Settings, "Set up"))
        .with(venue_fields(desk))
        .with(sample.text_of(move || desk.sample().unwrap_or_default()))
        .with(parts::submit("Save venue"))
        .with(id.map(|id| standing(desk, id)));
    [titled(title), div("scroll").with(form), last_save()].into()
}

/// Whether it is the usual venue, and the key that takes it away.
fn standing(desk: Desk, id: VenueId) -> [El; 3] {
    let store = desk.store;
    let is_usual = worked(move || store.read_setup(|book| book.usual_venue() == Some(id)));
    let use_it = move || store.dispatch(Command::UseVenue(id), |_| {});
    let remove = move || {
        store.dispatch(Command::RemoveVenue(id), move |saved| {
            if saved {
                route::replace(Route::Settings);
            }
        });
    };
    let usual = move || {
        if is_usual.get() {
            parts::line("Your usual venue: things are judged on it unless you choose another.")
        } else {
            button("press")
                .on_click(use_it)
                .with("Make it the usual one")
        }
    };
    [
        parts::heading("This venue"),
        div("bare").show(usual),
        button("press").on_click(remove).with("Remove this venue"),
    ]
}
