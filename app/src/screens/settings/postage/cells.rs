//! Cells: tables that are typed into. A cell holds what is typed itself and hands it over; the table is built anew only when its shape
//! changes, so that a card of thousands of prices stays quick.

use haulwren_core::view::{CardInput, Sheet};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, KeyboardEvent};

use super::card_desk::CardDesk;
use crate::screens::parts;
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::icons::{Icon, sign};

/// A cell at a place of the form, with the name that is read out.
pub fn cell(desk: CardDesk, input: CardInput, label: &str, is_number: bool) -> El {
    let stands = untrack(|| desk.form(|form| form.at(input).to_owned()));
    let keys = if is_number { "decimal" } else { "text" };
    el("input")
        .attr("type", "text")
        .attr("inputmode", keys)
        .attr("autocomplete", "off")
        .attr("spellcheck", "false")
        .attr("aria-label", label)
        .attr("value", &stands)
        .class(if is_number { "number" } else { "" })
        .attr_of("aria-invalid", move || {
            desk.is_wrong(input).then(|| "true".to_owned())
        })
        .on_input(move |typed| desk.type_in(input, &typed))
        .on("keydown", |event| down(&event))
}

/// Enter goes down a row, and not away with the form.
fn down(event: &Event) {
    let key = event.dyn_ref::<KeyboardEvent>().map(KeyboardEvent::key);
    if key.as_deref() != Some("Enter") {
        return;
    }
    event.prevent_default();
    let target = event.target();
    let cell = target.and_then(|target| target.dyn_into::<Element>().ok()?.parent_element());
    let below = cell.and_then(|cell| {
        let mut column = 1;
        let mut before = cell.previous_element_sibling();
        while let Some(one) = before {
            column += 1;
            before = one.previous_element_sibling();
        }
        let row = cell.parent_element()?.next_element_sibling()?;
        let input = row.query_selector(&format!(":scope > :nth-child({column}) input"));
        input.ok()??.dyn_into::<HtmlElement>().ok()
    });
    if let Some(below) = below {
        // It stands on the page, so it takes the focus.
        drop(below.focus());
    }
}

/// A cell in its place of a table.
pub fn in_table(cell: impl Into<Nodes>) -> El {
    el("td").with(cell)
}

/// A heading of a column.
pub fn head(words: impl Into<Nodes>) -> El {
    el("th").attr("scope", "col").with(words)
}

/// A key that takes a row or a column away.
pub fn take_away(label: &str, pressed: impl FnMut() + 'static) -> El {
    button("press bare-key")
        .attr("aria-label", label)
        .attr("title", label)
        .on_click(pressed)
        .with(sign(Icon::Rub))
}

/// A table that is wider than a phone scrolls by itself.
pub fn wide(label: &str, inside: impl Into<Nodes>) -> El {
    div("card-cells")
        .attr("role", "group")
        .attr("aria-label", label)
        .with(el("table").with(inside))
}

/// What is wrong in a sheet, row by row.
pub fn faults(desk: CardDesk, at: usize, sheet: Sheet) -> El {
    div("faults").attr("role", "status").show(move || {
        desk.state.faults(|faults| {
            let mut lines = Vec::new();
            for fault in faults {
                let place = match fault.field {
                    CardInput::Sheet(of, in_sheet) if (of, in_sheet) == (at, sheet) => {
                        String::new()
                    }
                    CardInput::Cell(of, in_sheet, row, column) if (of, in_sheet) == (at, sheet) => {
                        place(sheet, row, column)
                    }
                    _ => continue,
                };
                lines.push(parts::line(&(place + &fault.sentence)).class("fault"));
            }
            lines
        })
    })
}

/// Where a fault is, in words.
fn place(sheet: Sheet, row: usize, column: usize) -> String {
    match (sheet, row, column) {
        (Sheet::Table, 0, zone) => format!("Zone {zone}: "),
        (Sheet::Table, row, 0) => format!("Row {row}: "),
        (Sheet::Table, row, zone) => format!("Row {row}, zone {zone}: "),
        (Sheet::Flat, row, column @ 2..) => format!("Row {}, zone {}: ", row + 1, column - 1),
        (Sheet::Flat | Sheet::Extra, row, _) => format!("Row {}: ", row + 1),
    }
}
