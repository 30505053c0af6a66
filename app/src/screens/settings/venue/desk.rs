//! The form at hand: what is typed, what it reads as, and saving it.

use crate::live::{Live, Worked, worked};
use haulwren_core::book::{Command, State, VenueSetup};
use haulwren_core::id::VenueId;
use haulwren_core::json;
use haulwren_core::money::Currency;
use haulwren_core::view::{Complaint, VenueForm, VenueInput};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::route::{self, Route};
use crate::store::{Store, use_store};

/// What the form reads as.
type Read = Option<Result<VenueSetup, Vec<Complaint<VenueInput>>>>;

/// The form at hand. What of it can't be used is said once it was tried.
#[derive(Clone, Copy)]
pub struct Desk {
    pub id: Option<VenueId>,
    pub store: Store,
    /// The form as it is typed, else as it is stored.
    pub form: Worked<VenueForm>,
    read: Worked<Read>,
    tried: Live<bool>,
    /// Whether the plain case was left for the list of all charges.
    pub more: Live<bool>,
    /// The charge whose fields are open.
    pub opened: Live<Option<usize>>,
    /// Whether a shape is being chosen.
    pub choosing: Live<bool>,
    /// What stood before a shape was taken.
    pub before: Live<Option<VenueForm>>,
}

impl Desk {
    pub fn new(id: Option<VenueId>) -> Self {
        let store = use_store();
        let form = worked(move || {
            let draft = store.form(&key(id), json::of::<VenueForm>);
            draft.unwrap_or_else(|| stored(store, id))
        });
        let read = worked(move || {
            let currency = store.read_setup(State::currency)?;
            Some(form.with(|form| form.read(currency)))
        });
        Self {
            id,
            store,
            form,
            read,
            tried: Live::new(false),
            more: Live::new(false),
            opened: Live::new(None),
            choosing: Live::new(false),
            before: Live::new(None),
        }
    }

    /// The form as it is stored.
    pub fn stored(self) -> VenueForm {
        stored(self.store, self.id)
    }

    pub fn currency(self) -> Option<Currency> {
        self.store.read_setup(State::currency)
    }

    /// What the form reads as, where all of it can be used.
    pub fn setup(self) -> Option<VenueSetup> {
        self.read.with(|read| read.as_ref()?.as_ref().ok().cloned())
    }

    /// Changes what is typed.
    pub fn edit(self, change: impl FnOnce(&mut VenueForm)) {
        let mut form = self.form.get_untracked();
        change(&mut form);
        self.store
            .keep_form(&key(self.id), Some(json::value(&form)));
    }

    /// The text of a field; empty when the field has gone.
    pub fn text(self, input: VenueInput) -> String {
        self.form
            .with(|form| form.text(input).cloned().unwrap_or_default())
    }

    /// What is wrong with a field.
    pub fn fault(self, input: VenueInput) -> Option<String> {
        self.first_fault(&|field| field == input)
    }

    /// What is wrong with any field of a charge.
    pub fn fault_of_charge(self, at: usize) -> Option<String> {
        self.first_fault(&|field| matches!(field, VenueInput::Charge(of, _) if of == at))
    }

    /// Is anything wrong with one of the fields that are meant?
    pub fn first_fault(self, is_meant: &dyn Fn(VenueInput) -> bool) -> Option<String> {
        if !self.tried.get() {
            return None;
        }
        self.read.with(|read| {
            let complaints = read.as_ref()?.as_ref().err()?;
            let found = complaints.iter().find(|found| is_meant(found.field))?;
            Some(found.sentence.clone())
        })
    }

    pub fn save(self) {
        self.tried.set(true);
        match self.read.get_untracked() {
            Some(Ok(setup)) => self.dispatch(setup),
            Some(Err(complaints)) => self.go_to_fault(&complaints),
            None => {}
        }
    }

    fn dispatch(self, setup: VenueSetup) {
        // Whoever adds the first venue came to weigh something up.
        let is_first = untrack(|| self.store.read_setup(|book| book.venues().next().is_none()));
        self.store
            .dispatch(Command::SaveVenue { id: self.id, setup }, move |saved| {
                if saved {
                    self.store.keep_form(&key(self.id), None);
                    route::replace(if is_first {
                        Route::Decide
                    } else {
                        Route::Settings
                    });
                }
            });
    }

    /// What can't be used is said beside its field: opens the first charge of which that is so, and goes to the field.
    fn go_to_fault(self, complaints: &[Complaint<VenueInput>]) {
        let bad = complaints.iter().find_map(|found| match found.field {
            VenueInput::Charge(at, _) => Some(at),
            _ => None,
        });
        let is_plain = self.form.with_untracked(VenueForm::is_plain);
        if let Some(at) = bad.filter(|_| !is_plain || self.more.get_untracked()) {
            self.opened.set(Some(at));
        }
        // What was opened is drawn first.
        request_animation_frame(|| {
            let first = document().query_selector(".form [aria-invalid=true]");
            if let Ok(Some(field)) = first {
                let field: web_sys::HtmlElement = field.unchecked_into();
                drop(field.focus());
            }
        });
    }
}

/// Where the half-typed form is kept.
fn key(id: Option<VenueId>) -> String {
    Route::Venue(id).path()
}

fn stored(store: Store, id: Option<VenueId>) -> VenueForm {
    let known = id.zip(store.today());
    let form =
        known.and_then(|(id, today)| store.read_setup(|book| VenueForm::of(book, id, today)));
    form.unwrap_or_default()
}
