//! The form of a rate card at hand: which of its services is shown, what is wrong with it, and saving it.

use haulwren_core::book::{Command, State};
use haulwren_core::id::CardId;
use haulwren_core::money::Currency;
use haulwren_core::view::{CardForm, CardInput, Complaint, ServiceForm, SetupForm};
use leptos::prelude::*;

use super::desk::Desk;
use crate::live::{Live, Worked, worked};
use crate::route::{self, Route};

/// The form at hand.
#[derive(Clone, Copy)]
pub struct CardDesk {
    pub id: Option<CardId>,
    pub currency: Currency,
    pub desk: Desk,
    /// The service that is shown.
    pub at: Live<usize>,
    /// Told when tables have other rows or columns than they stand with.
    pub shape: Live<()>,
    /// Told when more than tables has to be built anew.
    pub whole: Live<()>,
    /// What is wrong, once it was tried.
    pub faults: Worked<Vec<Complaint<CardInput>>>,
    /// The zones' names, of the service with the most of them.
    pub zones: Worked<Vec<String>>,
}

fn card_in(form: &SetupForm) -> &CardForm {
    match form {
        SetupForm::Card(form) => form,
        SetupForm::Pack(_) => unreachable!("this page's form is of a card"),
    }
}

impl CardDesk {
    /// The form of a card.
    pub fn new(id: Option<CardId>, currency: Currency) -> Self {
        let stored = move |book: &State| {
            let card = id.and_then(|id| book.card(id)?.card.as_ref());
            SetupForm::Card(match card {
                Some(card) => CardForm::of(card, currency),
                None => CardForm::start(book.units().weight()),
            })
        };
        let desk = Desk::new(Route::Card(id), stored);
        let zones = move |form: &SetupForm| {
            let mut widest: &[String] = &[];
            for service in &card_in(form).services {
                if service.zones().len() > widest.len() {
                    widest = service.zones();
                }
            }
            widest.to_vec()
        };
        let faults = move || {
            let read = |form: &SetupForm| card_in(form).read(currency).err();
            let faults = desk.tried.get().then(|| desk.with(read));
            faults.flatten().unwrap_or_default()
        };
        Self {
            id,
            currency,
            desk,
            at: Live::new(0),
            shape: Live::new(()),
            whole: Live::new(()),
            faults: worked(faults),
            zones: worked(move || desk.with(zones)),
        }
    }

    /// Reads the form. Follows it.
    pub fn form<R>(self, read: impl FnOnce(&CardForm) -> R) -> R {
        self.desk.with(|form| read(card_in(form)))
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
        self.desk.edit(&mut |form| {
            if let SetupForm::Card(form) = form {
                change(form);
            }
        });
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
        self.edit(&mut |form| form.set(input, typed.to_owned()));
    }

    /// Whether a place can't be used.
    pub fn is_wrong(self, input: CardInput) -> bool {
        self.faults
            .with(|faults| faults.iter().any(|fault| fault.field == input))
    }

    /// What is wrong with a place.
    pub fn fault(self, input: CardInput) -> Option<String> {
        self.faults.with(|faults| {
            let found = faults.iter().find(|fault| fault.field == input);
            found.map(|fault| fault.sentence.clone())
        })
    }

    /// Saves the card, or shows the first service with something wrong.
    pub fn save(self) {
        self.desk.tried.set(true);
        let read = untrack(|| self.form(|form| form.read(self.currency)));
        match read {
            Ok(card) => {
                let command = Command::SaveCard { id: self.id, card };
                self.desk.store.dispatch(command, move |saved| {
                    if saved {
                        self.desk.forget();
                        route::replace(Route::Postage);
                    }
                });
            }
            Err(faults) => {
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
            }
        }
    }
}
