//! Surcharges by size: what each goes by, from where on, and how much.

use std::rc::Rc;

use haulwren_core::measure::WeightUnit;
use haulwren_core::view::{CardInput, MEASURES, Sheet, Units};
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::cells::{cell, faults, take_away};
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div, span};

/// The surcharges, one below the other.
pub fn surcharges(desk: CardDesk, at: usize, unit: WeightUnit) -> Nodes {
    let add = move || {
        desk.reshape(&mut |form| {
            if let Some(service) = form.services.get_mut(at) {
                service.add_row(Sheet::Extra);
            }
        });
    };
    let rows = move || {
        desk.shape.track();
        let count = untrack(|| desk.service(at, |service| service.extra.len()));
        let one = |row| extra(desk, at, row, unit);
        untrack(|| (0..count).map(one).collect::<Vec<_>>())
    };
    [
        parts::support(
            "Of two by one measure the one from furthest on counts; different measures add up.",
        ),
        div("bare").show(rows),
        faults(desk, at, Sheet::Extra),
        button("press").on_click(add).with("Add a surcharge"),
    ]
    .into()
}

fn extra(desk: CardDesk, at: usize, row: usize, unit: WeightUnit) -> El {
    let place = move |column| CardInput::Cell(at, Sheet::Extra, row, column);
    let chosen: Now<usize> = Rc::new(move || {
        desk.form(|form| {
            let stands = form.at(place(0));
            let found = MEASURES.iter().position(|(name, _)| *name == stands);
            found.unwrap_or_default()
        })
    });
    let choose: Do<usize> = Rc::new(move |measure| desk.type_in(place(0), MEASURES[measure].0));
    let words = MEASURES.map(|(_, words)| (words, ""));
    let number = row + 1;
    let name = format!("extra-{row}");
    let legend = format!("Surcharge {number}: parcels over");
    let remove = move || {
        desk.reshape(&mut |form| {
            if let Some(service) = form.services.get_mut(at) {
                service.remove_row(Sheet::Extra, row);
            }
        });
    };
    let Units { length, volume, .. } = Units::of(unit);
    let shown = chosen.clone();
    let symbol = move || if shown() == 2 { volume } else { length }.to_owned();
    let amounts = div("card-cells inline").with([
        cell(desk, place(1), &format!("Surcharge {number}, over"), false),
        span("").text_of(symbol),
        span("").with("costs"),
        cell(desk, place(2), &format!("Surcharge {number}, amount"), true),
        take_away(&format!("Remove surcharge {number}"), remove),
    ]);
    div("field").with([
        choice_keys(&legend, &name, true, &words, &chosen, &choose),
        amounts,
    ])
}
