//! The form of a rate card at hand: which of its services is shown, what is wrong with it, and saving it.

use haulwren_core::book::Command;
use haulwren_core::id::CardId;
use haulwren_core::money::Currency;
use haulwren_core::view::{CardForm, CardInput, Complaint, Faults, ServiceForm};

use crate::live::{Live, Worked, worked};
use crate::route::{self, Route};
use crate::screens::form::FormState;
use crate::store::use_store;

/// The form at hand.
#[derive(Clone, Copy)]
pub struct CardDesk {
    pub currency: Currency,
    pub state: FormState<CardForm>,
    /// The service that is shown.
    pub at: Live<usize>,
    /// Told when tables have other rows or columns than they stand with.
    pub shape: Live<()>,
    /// Told when more than tables has to be built anew.
    pub whole: Live<()>,
    /// The zones' names, of the service with the most of them.
    pub zones: Worked<Vec<String>>,
}

impl CardDesk {
    /// The form of a card.
    pub fn new(id: Option<CardId>, currency: Currency) -> Self {
        let store = use_store();
        let stored = move || {
            store.read_setup(|book| {
                let card = id.and_then(|id| book.card(id)?.card.as_ref());
                match card {
                    Some(card) => CardForm::of(card, currency),
                    None => CardForm::start(book.units().weight()),
                }
            })
        };
        let read = move |form: &CardForm| {
            let read = form.read(currency);
            Some(read.map(|card| Command::SaveCard { id, card }))
        };
        let state = FormState::new(Route::Card(id).path(), stored, read);
        let zones = |form: &CardForm| {
            let mut widest: &[String] = &[];
            for service in &form.services {
                if service.zones().len() > widest.len() {
                    widest = service.zones();
                }
            }
            widest.to_vec()
        };
        Self {
            currency,
            state,
            at: Live::new(0),
            shape: Live::new(()),
            whole: Live::new(()),
            zones: worked(move || state.with(zones)),
        }
    }

    /// Reads the form. Follows it.
    pub fn form<R>(self, read: impl FnOnce(&CardForm) -> R) -> R {
        self.state.with(read)
    }

    /// Reads a service; one that has just gone is empty.
    pub fn service<R>(self, at: usize, read: impl FnOnce(&ServiceForm) -> R) -> R {
        self.form(|form| match form.services.get(at) {
            Some(service) => read(service),
            None => read(&ServiceForm::default()),
        })
    }

    /// Changes the form.
    pub fn edit(self, change: &mut dyn FnMut(&mut CardForm)) {
        self.state.edit(change);
    }

    /// Changes a service.
    pub fn edit_service(self, at: usize, change: &mut dyn FnMut(&mut ServiceForm)) {
        self.edit(&mut |form| {
            if let Some(service) = form.services.get_mut(at) {
                change(service);
            }
        });
    }

    /// Changes the form in such a way that tables have other rows or columns.
    pub fn reshape(self, change: &mut dyn FnMut(&mut CardForm)) {
        self.edit(change);
        self.shape.set(());
    }

    /// Changes the form in such a way that all of it is drawn anew.
    pub fn rebuild(self, change: &mut dyn FnMut(&mut CardForm)) {
        self.edit(change);
        self.whole.set(());
    }

    /// Types at a place.
    pub fn type_in(self, input: CardInput, typed: &str) {
        self.state.type_in(input, typed);
    }

    /// Whether a place can't be used.
    pub fn is_wrong(self, input: CardInput) -> bool {
        self.state
            .faults(|faults| faults.iter().any(|fault| fault.field == input))
    }

    /// What is wrong with a place.
    pub fn fault(self, input: CardInput) -> Option<String> {
        self.state.fault(input)
    }

    /// Saves the card and goes back to the list, or shows the first service with something wrong.
    pub fn save(self) {
        let open = move |faults: &Faults<CardForm>| {
            let service = |fault: &Complaint<CardInput>| match fault.field {
                CardInput::Text(at, _) | CardInput::Cell(at, ..) | CardInput::Sheet(at, _) => {
                    Some(at)
                }
                _ => None,
            };
            let shown = self.at.get_untracked();
            let mut with_faults = faults.iter().filter_map(service);
            let is_shown = faults.iter().any(|fault| service(fault) == Some(shown));
            if let Some(first) = with_faults.next()
                && !is_shown
            {
                self.at.set(first);
            }
        };
        self.state.save(open, || route::replace(Route::Postage));
    }
}
