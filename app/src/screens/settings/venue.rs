//! One venue's page: its form, whether it is the usual one, and taking it away.

use haulwren_core::book::{Command, State};
use haulwren_core::id::VenueId;
use haulwren_core::money::Currency;
use haulwren_core::view::{Complaint, VenueForm, VenueInput, keeps_of_twenty};
use leptos::prelude::*;

use super::super::haul::last_save;
use super::super::page::titled;
use super::venue_fields::venue_fields;
use crate::format;
use crate::route::{Route, Routes, use_routes};
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::icons::{Icon, sign};

/// What the form holds, and what of it can't be used once it was tried.
#[derive(Clone, Copy)]
struct Desk {
    id: Option<VenueId>,
    store: Store,
    routes: Routes,
    stored: Memo<VenueForm>,
    form: Memo<VenueForm>,
    tried: RwSignal<bool>,
}

impl Desk {
    fn open(id: Option<VenueId>) -> Self {
        let store = use_store();
        let stored = Memo::new(move |_| {
            let today = store.today();
            let known = id
                .zip(today)
                .and_then(|(id, today)| store.read_setup(|book| VenueForm::of(book, id, today)));
            known.unwrap_or_default()
        });
        let form = Memo::new(move |_| store.venue_draft(&key(id)).unwrap_or_else(|| stored.get()));
        Self {
            id,
            store,
            routes: use_routes(),
            stored,
            form,
            tried: RwSignal::new(false),
        }
    }

    fn complaints(self) -> Vec<Complaint<VenueInput>> {
        let currency = self
            .store
            .read_setup(State::currency)
            .filter(|_| self.tried.get());
        let read = currency.map(|currency| self.form.with(|form| form.read(currency)));
        read.and_then(Result::err).unwrap_or_default()
    }

    fn save(self) {
        self.tried.set(true);
        let currency = untrack(|| self.store.read_setup(State::currency));
        let read = currency.and_then(|currency| self.form.get_untracked().read(currency).ok());
        // What can't be used is said beside its field.
        let Some(setup) = read else { return };
        // Whoever adds the first venue came to weigh something up.
        let is_first = untrack(|| self.store.read_setup(|book| book.venues().next().is_none()));
        self.store
            .dispatch(Command::SaveVenue { id: self.id, setup }, move |saved| {
                if saved {
                    self.store.keep_venue_draft(&key(self.id), None);
                    self.routes.replace(if is_first {
                        Route::Decide
                    } else {
                        Route::Settings
                    });
                }
            });
    }

    /// What the form would come to, on a sale at twenty.
    fn sample(self) -> String {
        let told = self.store.read_setup(State::currency).and_then(|currency| {
            let setup = self.form.with(|form| form.read(currency)).ok()?;
            Some(sentence(keeps_of_twenty(&setup, currency), currency))
        });
        told.unwrap_or_default()
    }
}

/// Where the half-typed form is kept.
fn key(id: Option<VenueId>) -> String {
    id.map_or_else(|| "new".to_owned(), |id| id.to_string())
}

/// The page; without an id it adds a venue.
pub fn venue(id: Option<VenueId>) -> Nodes {
    let desk = Desk::open(id);
    let title = move || {
        let name = desk.stored.with(|stored| stored.name.clone());
        if name.is_empty() {
            "A new venue".to_owned()
        } else {
            name
        }
    };
    let edit =
        Callback::new(move |form: VenueForm| desk.store.keep_venue_draft(&key(id), Some(form)));
    let complaints = Memo::new(move |_| desk.complaints());
    let back = el("a")
        .class("press back")
        .attr("href", &Route::Settings.href());
    let form = el("form")
        .class("form")
        .on("submit", move |event| {
            event.prevent_default();
            desk.save();
        })
        .with(back.with(sign(Icon::Back)).with("Set up"))
        .with(venue_fields(desk.form, edit, complaints))
        .with(
            el("p")
                .class("support")
                .attr("role", "status")
                .text_of(move || desk.sample()),
        )
        .with(
            el("button")
                .attr("type", "submit")
                .class("press go")
                .with("Save venue"),
        )
        .with(id.map(|id| standing(desk, id)));
    [titled(title), div("scroll").with(form), last_save()].into()
}

fn sentence(
    (price, cut, left): (
        haulwren_core::money::Money,
        haulwren_core::money::Money,
        haulwren_core::money::Money,
    ),
    currency: Currency,
) -> String {
    let say = |money| format::amount(money, currency);
    let left = if left.is_negative() {
        format!("you lose {} before you pay for the thing", say(left.abs()))
    } else {
        format!("{} is left before you pay for the thing", say(left))
    };
    format!(
        "Of a sale at {}, the venue takes {}, and after postage and packing {left}.",
        say(price),
        say(cut)
    )
}

/// Whether it is the usual venue, and the key that takes it away.
fn standing(desk: Desk, id: VenueId) -> [El; 3] {
    let Desk { store, routes, .. } = desk;
    let is_usual = Memo::new(move |_| store.read_setup(|book| book.usual_venue() == Some(id)));
    let use_it = move || store.dispatch(Command::UseVenue(id), |_| {});
    let remove = move || {
        store.dispatch(Command::RemoveVenue(id), move |saved| {
            if saved {
                routes.replace(Route::Settings);
            }
        });
    };
    let usual = move || {
        if is_usual.get() {
            el("p").with("Your usual venue: things are judged on it unless you choose another.")
        } else {
            button("press")
                .on_click(use_it)
                .with("Make it the usual one")
        }
    };
    [
        el("h2").with("This venue"),
        div("bare").show(usual),
        button("press").on_click(remove).with("Remove this venue"),
    ]
}
