//! A rough card: a unit, and six weights with one price each.

use haulwren_core::view::{CardInput, ServiceForm, Sheet};
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::cells::{cell, faults, head, in_table, wide};
use super::service::unit;
use crate::screens::parts;
use crate::ui::el::{Nodes, div, el, span};

/// The six numbers.
pub fn few_steps(desk: CardDesk) -> Nodes {
    let rows = move || {
        desk.shape.track();
        let rows = untrack(|| desk.service(0, |service| service.table.len()));
        let symbol = untrack(|| desk.service(0, ServiceForm::unit_place));
        let mut body = Vec::new();
        for row in 1..rows {
            let at = |column| CardInput::Cell(0, Sheet::Table, row, column);
            body.push(el("tr").with([
                in_table(cell(desk, at(0), &format!("Up to, row {row}"), false)),
                in_table(cell(desk, at(1), &format!("Price, row {row}"), true)),
            ]));
        }
        let symbol = super::service::UNITS[symbol].0;
        let heads = [head(format!("Up to, {symbol}")), head("Price")];
        wide(
            "Weights and prices",
            [
                el("thead").with(el("tr").with(heads)),
                el("tbody").with(body),
            ],
        )
    };
    [
        parts::support("The weights are a start: type the price of each, and change what doesn’t suit you. What rests on this card is marked ")
            .with(span("mark dashed").with("rough"))
            .with("."),
        unit(desk, 0),
        div("bare").show(rows),
        faults(desk, 0, Sheet::Table),
    ]
    .into()
}
