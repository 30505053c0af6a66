//! The fields of one charge.

use std::rc::Rc;

use crate::live::worked;
use haulwren_core::view::{
    ChargeForm, ChargeInput, Of, VenueForm, VenueInput, Way, is_marked, marked,
};

use super::conditions::conditions;
use super::desk::Desk;
use super::fields::{key, percent, pick};
use super::table::table;
use crate::screens::form::{amount, words};
use crate::ui::el::{El, Nodes, div, el};

const WAYS: [&str; 6] = [
    "A percentage",
    "A flat sum",
    "By the price: all of it at its step",
    "Slice by slice, each at its own rate",
    "By the month’s sales so far",
    "By the year’s sales so far",
];
const OF: [&str; 4] = [
    "The price",
    "Price and postage",
    "Price, postage and tax",
    "Other charges",
];

/// The open charge at a place.
pub fn charge(desk: Desk, at: usize) -> El {
    let of = move |input| VenueInput::Charge(at, input);
    let id = move |name: &str| format!("charge-{at}-{name}");
    let shape = worked(move || read(desk, at, |charge| (charge.way, charge.of)));
    let way = pick(
        &id("way"),
        "How much",
        &WAYS,
        Rc::new(move || shape.get().0 as usize),
        Rc::new(move |way| desk.edit(|form| form.choose_way(at, Way::at(way)))),
    );
    let is_way = worked(move || shape.get().0);
    let much = move || match is_way.get() {
        Way::Percent => desk.form.field(&percent(
            &id("percent"),
            "Percent",
            of(ChargeInput::Percent),
        )),
        Way::Flat => desk
            .form
            .field(&amount(&id("flat"), "Amount", of(ChargeInput::Flat))),
        _ => table(desk, at),
    };
    // A flat sum is of nothing; what was said of it before can still be undone.
    let has_base = worked(move || {
        let (way, of) = shape.get();
        way != Way::Flat || of != Of::Price
    });
    let base = move || {
        let choose = move |base| write(desk, at, |charge| charge.of = Of::at(base));
        let chosen = move || shape.get().1 as usize;
        let list = || {
            pick(
                &format!("charge-{at}-of"),
                "Of what",
                &OF,
                Rc::new(chosen),
                Rc::new(choose),
            )
        };
        has_base.get().then(list)
    };
    let is_of = worked(move || shape.get().1);
    let beside = move || -> Nodes {
        match is_of.get() {
            Of::Price | Of::PriceAndPost => ().into(),
            Of::OrderTotal => {
                let id = format!("charge-{at}-tax");
                let tax = percent(&id, "Tax to assume", of(ChargeInput::Tax));
                desk.form.field(&tax).into()
            }
            Of::Charges => others(desk, at).into(),
        }
    };
    let up = move || {
        desk.edit(|form| form.move_up(at));
        desk.opened.set(Some(at - 1));
    };
    let remove = move || {
        desk.opened.set(None);
        desk.edit(|form| form.remove_charge(at));
    };
    let keys = div("pair keys-row")
        .with((at > 0).then(|| key("Move up", up)))
        .with(key("Remove this charge", remove));
    div("form flush charge-fields")
        .with(desk.form.field(&words(
            &format!("charge-{at}-label"),
            "What it is called",
            of(ChargeInput::Label),
        )))
        .with(way)
        .show(much)
        .show(base)
        .show(beside)
        .with(conditions(desk, at))
        .with(keys)
}

/// A tick for each charge before this one.
fn others(desk: Desk, at: usize) -> El {
    let mut all = el("fieldset")
        .class("ticks")
        .with(el("legend").with("Of these charges"));
    if at == 0 {
        all = all.with("Only charges before this one can be meant: put it after them.");
    }
    for other in 0..at {
        let name = desk
            .form
            .with_untracked(|form| form.charges[other].label.clone());
        all = all.with(desk.form.tick(
            &format!("charge-{at}-of-{other}"),
            &name,
            move |form| {
                form.charges
                    .get(at)
                    .is_some_and(|charge| is_marked(charge.others, other))
            },
            move |form, on| {
                change(form, at, |charge| {
                    charge.others = marked(charge.others, other, on);
                });
            },
        ));
    }
    all.with(
        desk.form
            .fault_line(VenueInput::Charge(at, ChargeInput::Others)),
    )
}

/// Reads the charge at a place, if it is there.
pub fn read<T: Default>(desk: Desk, at: usize, read: fn(&ChargeForm) -> T) -> T {
    desk.form
        .with(|form| form.charges.get(at).map(read).unwrap_or_default())
}

/// Changes the charge at a place.
pub fn write(desk: Desk, at: usize, write: impl FnOnce(&mut ChargeForm)) {
    desk.edit(|form| change(form, at, write));
}

/// Changes the charge at a place of a form, if it is there.
pub fn change(form: &mut VenueForm, at: usize, write: impl FnOnce(&mut ChargeForm)) {
    if let Some(charge) = form.charges.get_mut(at) {
        write(charge);
    }
}
