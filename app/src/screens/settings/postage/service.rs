//! The services of a full card: which one is shown, its name and unit, its table, and what more there is to it.

use std::rc::Rc;

use haulwren_core::view::{CardInput, ServiceText, Sheet};
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::more::more;
use super::paste::paste;
use super::table::table;
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div};
use crate::ui::field::{FieldSpec, field};

/// The units, in the order of the core's.
pub const UNITS: [(&str, &str); 4] = [("oz", ""), ("lb", ""), ("g", ""), ("kg", "")];

/// The services, one of them open.
pub fn services(desk: CardDesk) -> Nodes {
    let add = move || {
        desk.rebuild(&mut |form| {
            form.add_service();
        });
        let last = untrack(|| desk.form(|form| form.services.len())) - 1;
        desk.at.set(last);
    };
    [
        parts::heading("Services"),
        which(desk),
        div("bare").show(move || {
            let at = desk.at.get();
            untrack(|| one(desk, at))
        }),
        button("press").on_click(add).with("Add a service"),
    ]
    .into()
}

/// The keys that open one of several.
fn which(desk: CardDesk) -> El {
    let names = untrack(|| {
        desk.form(|form| {
            let name = |service: &haulwren_core::view::ServiceForm| {
                let name = service.text(ServiceText::Name).trim().to_owned();
                if name.is_empty() {
                    "no name yet".to_owned()
                } else {
                    name
                }
            };
            form.services.iter().map(name).collect::<Vec<_>>()
        })
    });
    if names.len() < 2 {
        return div("bare");
    }
    let words: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), "")).collect();
    let shown: Now<usize> = Rc::new(move || desk.at.get());
    let show: Do<usize> = Rc::new(move |at| desk.at.set(at));
    choice_keys("Which one", "service", true, &words, &shown, &show)
}

/// A text of a service.
pub fn text(desk: CardDesk, at: usize, text: ServiceText, spec: FieldSpec<'_>) -> El {
    let input = CardInput::Text(at, text);
    field(
        spec,
        Rc::new(move || desk.form(|form| form.at(input).to_owned())),
        Rc::new(move || desk.fault(input)),
        Rc::new(move |typed: String| desk.type_in(input, &typed)),
    )
}

/// The unit of weights that are typed without one.
pub fn unit(desk: CardDesk, at: usize) -> El {
    let chosen: Now<usize> =
        Rc::new(move || desk.service(at, haulwren_core::view::ServiceForm::unit_place));
    let choose: Do<usize> = Rc::new(move |place| {
        desk.rebuild(&mut |form| {
            if let Some(service) = form.services.get_mut(at) {
                service.choose_unit(place);
            }
        });
    });
    choice_keys(
        "Weights are in",
        "card-unit",
        false,
        &UNITS,
        &chosen,
        &choose,
    )
}

fn one(desk: CardDesk, at: usize) -> Nodes {
    let name = FieldSpec {
        id: "service-name",
        label: "Name of the service",
        ..FieldSpec::default()
    };
    let several = desk.form(|form| form.services.len() > 1);
    let remove = move || {
        desk.at.set(0);
        desk.rebuild(&mut |form| form.remove_service(at));
    };
    let remove = several.then(|| button("press").on_click(remove).with("Remove this service"));
    [
        text(desk, at, ServiceText::Name, name),
        unit(desk, at),
        table(desk, at, Sheet::Table),
        paste(desk, at),
        more(desk, at),
        div("bare").with(remove),
    ]
    .into()
}
