//! The form of a container or a kind at hand, and the fields that both have.

use std::rc::Rc;

use haulwren_core::book::{Command, KindSetup, State};
use haulwren_core::id::{ContainerId, KindId};
use haulwren_core::money::Currency;
use haulwren_core::packing::Container;
use haulwren_core::view::{Complaint, PackForm, PackInput, SetupForm};
use leptos::prelude::*;

use super::desk::Desk;
use crate::route::{self, Route};
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div};
use crate::ui::field::{Entry, FieldSpec, field};

fn number<'a>(id: &'a str, label: &'a str, unit: &'a str) -> FieldSpec<'a> {
    FieldSpec {
        unit,
        entry: Entry::Number,
        ..spec(id, label)
    }
}

fn spec<'a>(id: &'a str, label: &'a str) -> FieldSpec<'a> {
    FieldSpec {
        id,
        label,
        ..FieldSpec::default()
    }
}

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
    pub desk: Desk,
    pub of: Of,
    pub currency: Currency,
}

fn pack_in(form: &SetupForm) -> &PackForm {
    match form {
        SetupForm::Pack(form) => form,
        SetupForm::Card(_) => unreachable!("this page's form is of a container or a kind"),
    }
}

impl PackDesk {
    /// The form of one of the two.
    pub fn new(of: Of, currency: Currency) -> Self {
        let stored = move |book: &State| {
            let known = match of {
                Of::Container(id) => id
                    .and_then(|id| book.container(id))
                    .map(|container| PackForm::of_container(&container, currency)),
                Of::Kind(id) => id
                    .and_then(|id| book.kind(id))
                    .map(|kind| PackForm::of_kind(&kind)),
            };
            SetupForm::Pack(known.unwrap_or_else(|| PackForm {
                metric: book.units().is_metric(),
                ..PackForm::default()
            }))
        };
        let page = match of {
            Of::Container(id) => Route::Container(id),
            Of::Kind(id) => Route::Kind(id),
        };
        Self {
            desk: Desk::new(page, stored),
            of,
            currency,
        }
    }

    /// Reads the form. Follows it.
    pub fn form<R>(self, read: impl FnOnce(&PackForm) -> R) -> R {
        self.desk.with(|form| read(pack_in(form)))
    }

    /// Changes the form.
    pub fn edit(self, change: &mut dyn FnMut(&mut PackForm)) {
        self.desk.edit(&mut |form| {
            if let SetupForm::Pack(form) = form {
                change(form);
            }
        });
    }

    fn container(self) -> Result<Container, Vec<Complaint<PackInput>>> {
        self.form(|form| form.container(self.currency))
    }

    /// The kind as it is typed.
    pub fn kind(self) -> Result<KindSetup, Vec<Complaint<PackInput>>> {
        self.form(PackForm::kind)
    }

    fn fault(self, input: PackInput) -> Option<String> {
        if !self.desk.tried.get() {
            return None;
        }
        let faults = match self.of {
            Of::Container(_) => self.container().err(),
            Of::Kind(_) => self.kind().err(),
        };
        Complaint::about(&input, faults?)
    }

    /// Saves it. What can't be used is said beside its field.
    pub fn save(self) {
        self.desk.tried.set(true);
        let command = untrack(|| match self.of {
            Of::Container(id) => self
                .container()
                .ok()
                .map(|container| Command::SaveContainer { id, container }),
            Of::Kind(id) => self.kind().ok().map(|kind| Command::SaveKind { id, kind }),
        });
        if let Some(command) = command {
            self.send(command);
        }
    }

    /// Sends a command, and goes back to the list when it is saved.
    fn send(self, command: Command) {
        self.desk.store.dispatch(command, move |saved| {
            if saved {
                self.desk.forget();
                route::replace(Route::Postage);
            }
        });
    }

    /// The key that takes it away.
    pub fn remove(self) -> Option<El> {
        let (command, word) = match self.of {
            Of::Container(id) => (Command::RemoveContainer(id?), "Remove this container"),
            Of::Kind(id) => (Command::RemoveKind(id?), "Remove this kind"),
        };
        let remove = move || self.send(command.clone());
        Some(button("press").on_click(remove).with(word))
    }

    /// A text of the form.
    pub fn text(
        self,
        spec: FieldSpec<'_>,
        input: Option<PackInput>,
        at: fn(&mut PackForm) -> &mut String,
    ) -> El {
        let value = move || self.form(|form| at(&mut form.clone()).clone());
        let fault = move || input.and_then(|input| self.fault(input));
        let typed = move |typed: String| self.edit(&mut |form| at(form).clone_from(&typed));
        field(spec, Rc::new(value), Rc::new(fault), Rc::new(typed))
    }

    /// A choice of the form.
    pub fn choice(
        self,
        legend: &str,
        name: &str,
        words: &[(&str, &str)],
        read: fn(&PackForm) -> usize,
        write: fn(&mut PackForm, usize),
    ) -> El {
        let chosen: Now<usize> = Rc::new(move || self.form(read));
        let choose: Do<usize> = Rc::new(move |at| self.edit(&mut |form| write(form, at)));
        let is_stacked = words.len() > 2 || words.iter().any(|(_, hint)| !hint.is_empty());
        choice_keys(legend, name, is_stacked, words, &chosen, &choose)
    }

    /// The fields that both have.
    pub fn measures(self, name: &str, weight: &str, size: &str) -> Nodes {
        let name = spec("pack-name", name);
        let units = crate::live::worked(move || self.form(|form| form.metric));
        let (weight, size) = (weight.to_owned(), size.to_owned());
        let measured = move || {
            let units = haulwren_core::view::Units::small(units.get());
            let one = |id, label, at| self.text(number(id, label, units.length), None, at);
            let weight = number("pack-weight", &weight, units.weight);
            let fault = move || self.fault(PackInput::Size);
            [
                self.text(weight, Some(PackInput::Weight), |form| &mut form.weight),
                div("field")
                    .attr("role", "group")
                    .attr("aria-label", &size)
                    .with(crate::ui::el::span("caption").with(size.as_str()))
                    .with(div("pair thirds").with([
                        one("pack-length", "Length", |form| &mut form.sides[0]),
                        one("pack-width", "Width", |form| &mut form.sides[1]),
                        one("pack-height", "Height", |form| &mut form.sides[2]),
                    ]))
                    .show(move || fault().map(|fault| parts::status(&fault).class("fault"))),
            ]
        };
        [
            self.text(name, Some(PackInput::Name), |form| &mut form.name),
            self.choice(
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
