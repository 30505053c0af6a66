//! The form at hand: what is typed, what it reads as, and saving it.

use haulwren_core::book::{Command, State, VenueSetup};
use haulwren_core::id::VenueId;
use haulwren_core::money::Currency;
use haulwren_core::view::{Faults, VenueForm, VenueInput};
use leptos::prelude::untrack;

use crate::live::{Live, Worked, worked};
use crate::route::{self, Route};
use crate::screens::form::FormState;
use crate::store::{Store, use_store};

/// The form at hand, and what of it lies open.
#[derive(Clone, Copy)]
pub struct Desk {
    pub store: Store,
    pub form: FormState<VenueForm>,
    setup: Worked<Option<VenueSetup>>,
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
        let read = move |form: &VenueForm| {
            let read = form.read(store.read_setup(State::currency)?);
            Some(read.map(|setup| Command::SaveVenue { id, setup }))
        };
        let stored = move || stored(store, id);
        let form = FormState::new(Route::Venue(id).path(), stored, read);
        let setup = worked(move || {
            let currency = store.read_setup(State::currency)?;
            form.with(|form| form.read(currency).ok())
        });
        Self {
            store,
            form,
            setup,
            more: Live::new(false),
            opened: Live::new(None),
            choosing: Live::new(false),
            before: Live::new(None),
        }
    }

    pub fn currency(self) -> Option<Currency> {
        self.store.read_setup(State::currency)
    }

    /// What the form reads as, where all of it can be used.
    pub fn setup(self) -> Option<VenueSetup> {
        self.setup.get()
    }

    /// Changes what is typed.
    pub fn edit(self, change: impl FnOnce(&mut VenueForm)) {
        let mut change = Some(change);
        self.form.edit(&mut |form| {
            if let Some(change) = change.take() {
                change(form);
            }
        });
    }

    /// What is wrong with any field of a charge.
    pub fn fault_of_charge(self, at: usize) -> Option<String> {
        let is_of_it = |field| matches!(field, VenueInput::Charge(of, _) if of == at);
        self.form.first_fault(&is_of_it)
    }

    /// Saves it. Of what can't be used, the first charge is opened.
    pub fn save(self) {
        // Whoever adds the first venue came to weigh something up.
        let is_first = untrack(|| self.store.read_setup(|book| book.venues().next().is_none()));
        let next = if is_first {
            Route::Decide
        } else {
            Route::Settings
        };
        let open = move |faults: &Faults<VenueForm>| {
            let bad = faults.iter().find_map(|found| match found.field {
                VenueInput::Charge(at, _) => Some(at),
                _ => None,
            });
            let is_plain = self.form.with_untracked(VenueForm::is_plain);
            if let Some(at) = bad.filter(|_| !is_plain || self.more.get_untracked()) {
                self.opened.set(Some(at));
            }
        };
        self.form.save(open, move || route::replace(next));
    }
}

fn stored(store: Store, id: Option<VenueId>) -> VenueForm {
    let known = id.zip(store.today());
    let form =
        known.and_then(|(id, today)| store.read_setup(|book| VenueForm::of(book, id, today)));
    form.unwrap_or_default()
}
