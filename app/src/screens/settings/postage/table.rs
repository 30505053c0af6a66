//! A sheet of a service as a table: zones as columns with weight steps as rows, or containers at a flat price.

use haulwren_core::measure::Unit as _;
use haulwren_core::view::{CardInput, Sheet};
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::cells::{cell, faults, head, in_table, take_away, wide};
use crate::ui::el::{El, button, div, el};

/// The sheet, what is wrong in it, and the keys that add to it.
pub fn table(desk: CardDesk, at: usize, sheet: Sheet) -> El {
    let add_row = move || {
        desk.reshape(&mut |form| {
            if let Some(service) = form.services.get_mut(at) {
                service.add_row(sheet);
            }
        });
    };
    let add_zone = move || {
        desk.reshape(&mut |form| {
            form.add_zone(at);
        });
    };
    let is_table = sheet == Sheet::Table;
    let row = if is_table {
        "Add a weight"
    } else {
        "Add a container"
    };
    let zone = is_table.then(|| button("press").on_click(add_zone).with("Add a zone"));
    let keys = div("pair")
        .with(button("press").on_click(add_row).with(row))
        .with(zone);
    let rows = move || {
        desk.shape.track();
        untrack(|| rows(desk, at, sheet))
    };
    div("field")
        .show(rows)
        .with(faults(desk, at, sheet))
        .with(keys)
}

/// All cells, as they stand now.
fn rows(desk: CardDesk, at: usize, sheet: Sheet) -> Option<El> {
    let (zones, count, symbol) = desk.service(at, |service| {
        let count = service.sheet(sheet).len();
        (service.zones().to_vec(), count, service.unit.symbol())
    });
    let is_table = sheet == Sheet::Table;
    if count == 0 {
        return None;
    }
    let place = |row, column| CardInput::Cell(at, sheet, row, column);
    let mut top = Vec::new();
    if is_table {
        top.push(head(format!("Up to, {symbol}")));
    } else {
        top.push(head("Container"));
        top.push(head(format!("Most weight, {symbol}")));
    }
    for (zone, name) in zones.iter().enumerate() {
        top.push(if is_table {
            let label = format!("Name of zone {}", zone + 1);
            let field = cell(desk, place(0, zone + 1), &label, false);
            head(field.attr("placeholder", "zone"))
        } else {
            head(name.as_str())
        });
    }
    top.push(el("td"));
    let first = usize::from(is_table);
    let mut body = Vec::new();
    for row in first..count {
        let number = row + 1 - first;
        let mut line = Vec::new();
        if is_table {
            line.push(cell(
                desk,
                place(row, 0),
                &format!("Up to, row {number}"),
                false,
            ));
        } else {
            line.push(
                cell(
                    desk,
                    place(row, 0),
                    &format!("Container, row {number}"),
                    false,
                )
                .class("words"),
            );
            line.push(cell(
                desk,
                place(row, 1),
                &format!("Most weight, row {number}"),
                false,
            ));
        }
        let from = line.len();
        for (zone, name) in zones.iter().enumerate() {
            let label = format!("Price, row {number}, zone {}", said(name, zone));
            line.push(cell(desk, place(row, from + zone), &label, true));
        }
        let remove = move || {
            desk.reshape(&mut |form| {
                if let Some(service) = form.services.get_mut(at) {
                    service.remove_row(sheet, row);
                }
            });
        };
        line.push(take_away(&format!("Remove row {number}"), remove));
        body.push(el("tr").with(line.into_iter().map(in_table).collect::<Vec<_>>()));
    }
    let foot = (is_table && zones.len() > 1).then(|| without_zones(desk, at, &zones));
    let label = if is_table {
        "Weights and zones"
    } else {
        "Flat prices"
    };
    let top = el("thead").with(el("tr").with(top));
    Some(wide(label, [Some(top), Some(el("tbody").with(body)), foot]))
}

fn said(name: &str, zone: usize) -> String {
    if name.trim().is_empty() {
        (zone + 1).to_string()
    } else {
        name.to_owned()
    }
}

/// The row of keys that take zones away.
fn without_zones(desk: CardDesk, at: usize, zones: &[String]) -> El {
    let mut keys = vec![el("td")];
    for (zone, name) in zones.iter().enumerate() {
        let remove = move || desk.reshape(&mut |form| form.remove_zone(at, zone));
        let label = format!("Remove zone {}", said(name, zone));
        keys.push(in_table(take_away(&label, remove)));
    }
    el("tfoot").with(el("tr").with(keys))
}
