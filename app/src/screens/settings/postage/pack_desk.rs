//! The form of a container or a kind at hand, and the fields that both have.

use haulwren_core::book::{Command, State};
use haulwren_core::id::{ContainerId, KindId};
use haulwren_core::money::Currency;
use haulwren_core::view::{PackForm, PackInput, Units};

use crate::live::worked;
use crate::route::{self, Route};
use crate::screens::form::{FormState, number, words};
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button, div, span};

/// Which of the two it is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A container; `None` adds one.
    Container(Option<ContainerId>),
    /// A kind; `None` adds one.
    Kind(Option<KindId>),
}

/// The form at hand.
#[derive(Clone, Copy)]
pub struct PackDesk {
    pub form: FormState<PackForm>,
    pub of: Of,
}

impl Of {
    const fn route(self) -> Route {
        match self {
            Self::Container(id) => Route::Container(id),
            Self::Kind(id) => Route::Kind(id),
        }
    }

    fn stored(self, book: &State, currency: Currency) -> PackForm {
        let known = match self {
            Self::Container(id) => id
                .and_then(|id| book.container(id))
                .map(|container| PackForm::of_container(&container, currency)),
            Self::Kind(id) => id
                .and_then(|id| book.kind(id))
                .map(|kind| PackForm::of_kind(&kind)),
        };
        known.unwrap_or_else(|| PackForm {
            metric: book.units().is_metric(),
            ..PackForm::default()
        })
    }
}

impl PackDesk {
    /// The form of one of the two.
    pub fn new(of: Of, currency: Currency) -> Self {
        let store = use_store();
        let stored = move || store.read_setup(|book| of.stored(book, currency));
        let read = move |form: &PackForm| {
            Some(match of {
                Of::Container(id) => form
                    .container(currency)
                    .map(|container| Command::SaveContainer { id, container }),
                Of::Kind(id) => form.kind().map(|kind| Command::SaveKind { id, kind }),
            })
        };
        Self {
            form: FormState::new(of.route().path(), stored, read),
            of,
        }
    }

    /// Saves it, and goes back to the list.
    pub fn save(self) {
        self.form.save(|_| {}, || route::replace(Route::Postage));
    }

    /// The key that takes it away.
    pub fn remove(self) -> Option<El> {
        let (command, word) = match self.of {
            Of::Container(id) => (Command::RemoveContainer(id?), "Remove this container"),
            Of::Kind(id) => (Command::RemoveKind(id?), "Remove this kind"),
        };
        let remove = move || {
            let back = || route::replace(Route::Postage);
            self.form.send(command.clone(), back);
        };
        Some(button("press").on_click(remove).with(word))
    }

    /// The fields that both have.
    pub fn measures(self, name: &str, weight: &str, size: &str) -> Nodes {
        let form = self.form;
        let is_metric = worked(move || form.with(|form| form.metric));
        let (weight, size) = (weight.to_owned(), size.to_owned());
        let measured = move || {
            let units = Units::small(is_metric.get());
            let one =
                |id, label, at| form.field(&number(id, label, units.length, PackInput::Side(at)));
            let weight = number("pack-weight", &weight, units.weight, PackInput::Weight);
            let fault = move || form.fault(PackInput::Size);
            [
                form.field(&weight),
                div("field")
                    .attr("role", "group")
                    .attr("aria-label", &size)
                    .with(span("caption").with(size.as_str()))
                    .with(div("pair thirds").with([
                        one("pack-length", "Length", 0),
                        one("pack-width", "Width", 1),
                        one("pack-height", "Height", 2),
                    ]))
                    .show(move || fault().map(|fault| parts::status(&fault).class("fault"))),
            ]
        };
        [
            form.field(&words("pack-name", name, PackInput::Name)),
            form.choice(
                "Measured in",
                "pack-units",
                &[("oz and in", ""), ("g and cm", "")],
                |form| usize::from(form.metric),
                |form, at| form.measure_in(at == 1),
            ),
            div("bare").show(measured),
        ]
        .into()
    }
}
