//! The list of all charges: each a row that says what it is, and opens into its fields.

use crate::live::worked;
use haulwren_core::view::{ChargeForm, Of, Times, Way};

use super::charge::charge;
use super::desk::Desk;
use crate::screens::parts;
use crate::ui::el::{El, button, div, el, span};
use crate::ui::icons::{Icon, sign};

/// The list.
pub fn charges(desk: Desk) -> El {
    let count = worked(move || desk.form.with(|form| form.charges.len()));
    let rows = move || {
        let mut rows = vec![parts::heading("Charges")];
        if count.get() == 0 {
            rows.push(parts::line("No charge: the venue takes nothing."));
        }
        rows.extend((0..count.get()).map(|at| row(desk, at)));
        rows
    };
    div("charges").show(rows)
}

fn row(desk: Desk, at: usize) -> El {
    let is_open = worked(move || desk.opened.get() == Some(at));
    let turn = move || {
        let open = !is_open.get_untracked();
        // Whoever looks into the list stays with it.
        desk.more.set(true);
        desk.opened.set(open.then_some(at));
    };
    let of = move |say: fn(&ChargeForm) -> String| {
        desk.form
            .with(|form| form.charges.get(at).map(say).unwrap_or_default())
    };
    let name = move || {
        let label = of(|charge| charge.label.clone());
        if label.trim().is_empty() {
            format!("Charge {}", at + 1)
        } else {
            label
        }
    };
    let what = span("what")
        .with(el("b").text_of(name))
        .with(el("small").text_of(move || of(gist)));
    let head = button("press wide charge-head")
        .state("aria-expanded", move || is_open.get())
        .on_click(turn)
        .with(what)
        .with(sign(Icon::Turn));
    let fault = move || {
        let is_closed = !is_open.get();
        let fault = desk.fault_of_charge(at).filter(|_| is_closed);
        fault.map(|fault| span("fault").with(fault))
    };
    div("charge")
        .with(head)
        .show(fault)
        .show(move || is_open.get().then(|| charge(desk, at)))
}

/// A charge in a few words: what it takes of what, and how often.
fn gist(charge: &ChargeForm) -> String {
    let or_none = |text: &str| {
        let text = text.trim();
        if text.is_empty() { "0" } else { text }.to_owned()
    };
    let mut gist = match charge.way {
        Way::Percent => format!("{} %", or_none(&charge.percent)),
        Way::Flat => or_none(&charge.flat),
        Way::Brackets => format!("in {} steps", charge.steps.len()),
        Way::Slices => format!("in {} slices", charge.steps.len()),
        Way::ByMonth => "by the month’s sales,".to_owned(),
        Way::ByYear => "by the year’s sales,".to_owned(),
    };
    let of = match charge.of {
        _ if charge.way == Way::Flat => "",
        Of::Price => " of the price",
        Of::PriceAndPost => " of price and postage",
        Of::OrderTotal => " of the order with tax",
        Of::Charges => " of other charges",
    };
    let times = match charge.times {
        Times::Thing => "",
        Times::Order => ", once an order",
        Times::Parcel => ", once a parcel",
        Times::Listing => ", once a listing",
        Times::Month => ", each month",
    };
    gist.push_str(of);
    gist.push_str(times);
    gist
}
