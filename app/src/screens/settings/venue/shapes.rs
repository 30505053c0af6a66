//! Shapes to start from, on a sheet: each with what it would leave of a sale at twenty.

use std::rc::Rc;

use crate::live::{Live, worked};
use haulwren_core::terms::monthly;
use haulwren_core::view::{Shape, keeps_of_twenty};
use leptos::prelude::untrack;

use super::desk::Desk;
use super::fields::key;
use crate::format;
use crate::screens::parts;
use crate::ui::el::{Do, El, Nodes, button, el, span};
use crate::ui::sheet::sheet;

const fn words(shape: Shape) -> (&'static str, &'static str) {
    match shape {
        Shape::Percentage => ("One percentage", "12 % of the price."),
        Shape::PercentageAndFlat => (
            "Percentage and a flat sum",
            "10 % of price and postage, and a small sum on each sale.",
        ),
        Shape::FlatThenPercentage => (
            "Flat under a price, percentage above",
            "A flat sum at first; from 10 on, 15 % of the whole price.",
        ),
        Shape::Falling => (
            "Falling with the price",
            "12 % of the first 100, 8 % of what is over that, 4 % over 500.",
        ),
        Shape::InPerson => ("Sold in person", "No charge, nothing packed or posted."),
        Shape::TaxOnFees => (
            "Tax on the charges",
            "A percentage and a flat sum, and 20 % tax on both.",
        ),
        Shape::MonthlyFee => (
            "Monthly fee",
            "5 % of the price, and a sum each month whatever sells.",
        ),
    }
}

/// The key that opens the sheet.
pub fn key_of(desk: Desk) -> El {
    key("Start from a shape", move || desk.choosing.set(true))
}

/// The sheet.
pub fn sheet_of(desk: Desk) -> El {
    let choosing: Live<bool> = desk.choosing;
    let close: Do<()> = Rc::new(move |()| choosing.set(false));
    let inside = move || -> Nodes {
        let note = "Takes the place of the charges. Change every number to what your venue says.";
        let mut rows = vec![parts::support(note)];
        rows.extend(Shape::ALL.map(|shape| row(desk, shape)));
        rows.into()
    };
    let title = Rc::new(|| "Start from a shape".to_owned());
    sheet(worked(move || choosing.get()), &close, title, false, inside)
}

fn row(desk: Desk, shape: Shape) -> El {
    let (word, hint) = words(shape);
    let take = move || {
        let Some(currency) = untrack(|| desk.currency()) else {
            return;
        };
        let before = desk.form.with_untracked(Clone::clone);
        desk.edit(|form| *form = shape.fill(form, currency));
        desk.before.set(Some(before));
        desk.opened.set(None);
        desk.choosing.set(false);
    };
    let keep = move || {
        let currency = desk.currency()?;
        let mut form = desk.form.with(|form| shape.fill(form, currency));
        if form.name.trim().is_empty() {
            // What is kept does not hang on the name.
            "A venue".clone_into(&mut form.name);
        }
        let setup = form.read(currency).ok()?;
        let (price, keep) = keeps_of_twenty(&setup, currency);
        let mut said = format!(
            "On a {} sale you keep {}",
            format::amount(price, currency),
            format::or_loss(keep, currency)
        );
        let month = monthly(&setup.schedule).total;
        if !month.is_zero() {
            said.push_str(", and pay ");
            said.push_str(&format::amount(month, currency));
            said.push_str(" a month");
        }
        Some(said)
    };
    button("press wide shape")
        .on_click(take)
        .with(el("b").with(word))
        .with(el("small").with(hint))
        .with(span("").text_of(move || keep().unwrap_or_default()))
}
