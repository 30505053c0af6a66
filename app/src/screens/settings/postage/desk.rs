//! A page's half-typed form: as it is stored until something is typed, and kept in this device's notes from then on.

use haulwren_core::book::State;
use haulwren_core::view::SetupForm;
use leptos::prelude::*;

use crate::live::{Live, Worked, worked};
use crate::route::Route;
use crate::store::{Store, use_store};
use crate::ui::el::{El, button, div};

/// The form at hand. What of it can't be used is said once it was tried.
#[derive(Clone, Copy)]
pub struct Desk {
    pub store: Store,
    pub tried: Live<bool>,
    page: Route,
    stored: Worked<SetupForm>,
    typed: Worked<Option<SetupForm>>,
}

impl Desk {
    /// The form of a page, and how it is filled from the book.
    pub fn new(page: Route, stored: impl Fn(&State) -> SetupForm + 'static) -> Self {
        let store = use_store();
        Self {
            store,
            tried: Live::new(false),
            page,
            stored: worked(move || store.read_setup(&stored)),
            typed: worked(move || store.form(&page.path(), SetupForm::from_json)),
        }
    }

    /// Reads the form as it is typed, else as it is stored.
    pub fn with<R>(self, read: impl FnOnce(&SetupForm) -> R) -> R {
        self.typed.with(|typed| match typed {
            Some(form) => read(form),
            None => self.stored.with(read),
        })
    }

    /// Changes what is typed.
    pub fn edit(self, change: &mut dyn FnMut(&mut SetupForm)) {
        let typed = self.typed.get_untracked();
        let mut form = typed.unwrap_or_else(|| self.stored.get_untracked());
        change(&mut form);
        self.store
            .keep_form(&self.page.path(), Some(form.to_json()));
    }

    /// Gives up what is typed.
    pub fn forget(self) {
        self.store.keep_form(&self.page.path(), None);
        // The page may have gone in the meantime.
        self.tried.set(false);
    }

    /// A key that gives up what is typed, while something is.
    pub fn start_over(self, then: impl Fn() + Copy + 'static) -> El {
        let is_typed = worked(move || self.typed.with(Option::is_some));
        let forget = move || {
            self.forget();
            then();
        };
        let key = move || {
            button("press")
                .on_click(forget)
                .with("Forget what is typed")
        };
        div("bare").show(move || is_typed.get().then(key))
    }
}

/// The currency of the book. Screens stand only when it has one.
pub fn currency() -> Option<haulwren_core::money::Currency> {
    untrack(|| use_store().read_setup(State::currency))
}
