//! A table from a spreadsheet: pasted, looked at, taken; and the one before put back.

use std::rc::Rc;

use haulwren_core::measure::Unit as _;
use haulwren_core::postage::Pasted;
use haulwren_core::view::{pasted, take_word};

use super::card_desk::CardDesk;
use super::cells::{head, in_table, wide};
use super::more::fold;
use crate::format;
use crate::live::worked;
use crate::screens::parts;
use crate::ui::el::{El, Nodes, button, div, el};

/// The place to paste, and what comes of it.
pub fn paste(desk: CardDesk, at: usize) -> El {
    let is_open = desk.service(at, |service| {
        !service.pasted.trim().is_empty() || !service.before.is_empty()
    });
    let area = el("textarea")
        .attr("id", "card-pasted")
        .attr("rows", "6")
        .attr("spellcheck", "false")
        .attr("autocomplete", "off")
        .attr("aria-describedby", "card-pasted-hint")
        .value_of(Rc::new(move || {
            desk.service(at, |service| service.pasted.clone())
        }))
        .on_input(move |typed| {
            desk.edit_service(at, &mut |service| service.pasted.clone_from(&typed));
        });
    let hint =
        "Copy it with its headings: the zones in the first row, the weights in the first column.";
    let field = div("field")
        .with(el("label").attr("for", "card-pasted").with("The table"))
        .with(parts::support(hint).attr("id", "card-pasted-hint"))
        .with(area);
    let found = worked(move || desk.service(at, |service| pasted(service, desk.currency)));
    let has_before = worked(move || desk.service(at, |service| !service.before.is_empty()));
    let put_back = move || {
        button("press")
            .on_click(move || desk.reshape(&mut |form| form.put_back(at)))
            .with("Put the rows from before back")
    };
    fold(
        "Paste from a spreadsheet",
        is_open,
        [
            field,
            div("bare").show(move || {
                found.with(|found| found.as_ref().map(|found| preview(desk, at, found)))
            }),
            div("bare").show(move || has_before.get().then(put_back)),
        ],
    )
}

/// What would be taken, and what can't be read.
fn preview(desk: CardDesk, at: usize, found: &Pasted) -> Nodes {
    let mut complaints = Vec::new();
    for fault in &found.complaints {
        let text = format!("Row {}: {}", fault.row, fault.sentence);
        complaints.push(parts::line(&text).class("fault"));
    }
    let left_out = div("faults").attr("role", "status").with(complaints);
    let Some(word) = take_word(found) else {
        return left_out.into();
    };
    let unit = desk.service(at, |service| service.unit.symbol());
    let mut top = vec![head(format!("Up to, {unit}"))];
    top.extend(found.zones.iter().map(|zone| head(zone.as_str())));
    let mut body = Vec::new();
    for step in &found.steps {
        let weight = el("th").attr("scope", "row").with(step.up_to.to_string());
        let mut line = vec![weight];
        for price in &step.prices {
            let price = price.map_or_else(
                || "\u{2013}".to_owned(),
                |price| format::amount(price, desk.currency),
            );
            line.push(in_table(price));
        }
        body.push(el("tr").with(line));
    }
    let heading = parts::support(&found.heading()).attr("data-heading", "");
    let table = wide(
        "What was read",
        [el("thead").with(el("tr").with(top)), el("tbody").with(body)],
    );
    let filled = desk.service(at, haulwren_core::view::ServiceForm::filled);
    let replaces = match filled {
        0 => String::new(),
        1 => "It takes the place of the row above, which can be put back.".to_owned(),
        rows => format!("It takes the place of the {rows} rows above, which can be put back."),
    };
    let left = match found.complaints.len() {
        0 => String::new(),
        1 => "One row is left out. ".to_owned(),
        rows => format!("{rows} rows are left out. "),
    };
    let take = move || desk.reshape(&mut |form| form.take_pasted(at, desk.currency));
    [
        heading,
        table.class("card-cells read"),
        left_out,
        button("press strong").on_click(take).with(word),
        parts::support(&(left + &replaces)),
    ]
    .into()
}
