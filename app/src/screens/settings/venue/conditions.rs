//! When a charge holds, its limits, how often it is made and whether it comes back: folded away while it is as usual.

use std::rc::Rc;

use crate::live::worked;
use haulwren_core::terms::MAX_NAMED;
use haulwren_core::view::{Back, ChargeForm, ChargeInput, Promotion, Times, VenueInput};

use super::charge::{change, read, write};
use super::desk::Desk;
use super::fields::{Text, key, pick};
use super::kinds::kinds;
use crate::screens::form::{amount, words};
use crate::ui::el::{El, div, el};

const TIMES: [&str; 5] = [
    "On each thing sold",
    "Once an order",
    "Once a parcel",
    "Once a listing",
    "Each month",
];
const PROMOTED: [&str; 3] = [
    "Promoted or not",
    "Only if it sold through a promotion",
    "Only if it sold without one",
];
const BACK: [&str; 3] = [
    "The venue keeps it",
    "All of it comes back",
    "It comes back, less a sum",
];

/// The folded part of the charge at a place.
pub fn conditions(desk: Desk, at: usize) -> El {
    let of = move |input| VenueInput::Charge(at, input);
    let id = move |name: &str| format!("charge-{at}-{name}");
    let [least, most, from, below] = ["least", "most", "from", "below"].map(id);
    let limits = [
        amount(&least, "At least", of(ChargeInput::Least)),
        amount(&most, "At most", of(ChargeInput::Most)),
    ];
    let range = [
        amount(&from, "For prices from", of(ChargeInput::From)),
        amount(&below, "and under", of(ChargeInput::Below)),
    ];
    let is_less = worked(move || read(desk, at, |charge| charge.back == Back::AllBut));
    let less = move || {
        let field = || {
            desk.form
                .field(&amount(&id("less"), "Less", of(ChargeInput::Less)))
        };
        is_less.get().then(field)
    };
    let times = list(
        desk,
        at,
        ("times", "Charged"),
        &TIMES,
        |charge| charge.times as usize,
        |charge, times| charge.times = Times::at(times),
    );
    let promoted = list(
        desk,
        at,
        ("promoted", "Paid promotion"),
        &PROMOTED,
        |charge| charge.promoted as usize,
        |charge, promoted| charge.promoted = Promotion::at(promoted),
    );
    let back = list(
        desk,
        at,
        ("back", "After a cancelled or returned sale"),
        &BACK,
        |charge| charge.back as usize,
        |charge, back| charge.back = Back::at(back),
    );
    let unsold = desk.form.tick(
        &id("unsold"),
        "Owed though nothing sells",
        move |form| form.charges.get(at).is_some_and(|charge| charge.unsold),
        move |form, on| change(form, at, |charge| charge.unsold = on),
    );
    // Open from the start where something is said, and as soon as something in it is wrong.
    let is_said = worked(move || read(desk, at, ChargeForm::has_conditions));
    let starts_open = is_said.get_untracked();
    let is_wrong = move || {
        desk.form
            .first_fault(&|field| is_inside(field, at))
            .is_some()
    };
    let body = div("form flush")
        .with(times)
        .with(desk.form.fault_line(of(ChargeInput::Times)))
        .with(desk.form.row(&limits))
        .with(desk.form.row(&range))
        .with(promoted)
        .with(regions(desk, at))
        .with(kinds(desk, at))
        .with(unsold)
        .with(back)
        .show(less);
    el("details")
        .class("fold")
        .flag("open", move || starts_open || is_wrong())
        .with(el("summary").with("Limits, conditions, refunds"))
        .with(body)
}

fn is_inside(field: VenueInput, at: usize) -> bool {
    use ChargeInput as Input;
    let VenueInput::Charge(of, input) = field else {
        return false;
    };
    let is_above = matches!(
        input,
        Input::Label
            | Input::Percent
            | Input::Flat
            | Input::Table
            | Input::Step(..)
            | Input::Tax
            | Input::Others
    );
    of == at && !is_above
}

fn list(
    desk: Desk,
    at: usize,
    (id, label): (&str, &str),
    all: &[&str],
    chosen: fn(&ChargeForm) -> usize,
    choose: fn(&mut ChargeForm, usize),
) -> El {
    pick(
        &format!("charge-{at}-{id}"),
        label,
        all,
        Rc::new(move || read(desk, at, chosen)),
        Rc::new(move |place| write(desk, at, |charge| choose(charge, place))),
    )
}

/// Regions of buyers, one field each.
fn regions(desk: Desk, at: usize) -> El {
    let count = worked(move || read(desk, at, |charge| charge.regions.len()));
    let rows = move || {
        let one = |region: usize| {
            let id = format!("charge-{at}-region-{region}");
            let input = VenueInput::Charge(at, ChargeInput::Region(region));
            let region = Text {
                hint: "Left empty, it doesn’t count.",
                ..words(&id, "Only for buyers in", input)
            };
            desk.form.field(&region)
        };
        (0..count.get()).map(one).collect::<Vec<_>>()
    };
    let add = move || {
        write(desk, at, |charge| {
            if charge.regions.len() < MAX_NAMED {
                charge.regions.push(String::new());
            }
        });
    };
    let has_some = worked(move || count.get() > 0);
    let more = move || {
        let word = if has_some.get() {
            "Add a region"
        } else {
            "Only for some regions"
        };
        key(word, add)
    };
    div("form flush").show(rows).show(more)
}
