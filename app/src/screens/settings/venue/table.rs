//! The table of a charge: from how much on, a percentage and a flat sum.

use crate::live::worked;
use haulwren_core::view::{ChargeInput, StepInput, VenueForm, VenueInput, Way};

use super::charge::{read, write};
use super::desk::Desk;
use super::fields::{key, percent};
use crate::screens::form::amount;
use crate::screens::parts;
use crate::ui::el::{El, div, el};

/// The table of the charge at a place.
pub fn table(desk: Desk, at: usize) -> El {
    let count = worked(move || read(desk, at, |charge| charge.steps.len()));
    let way = worked(move || read(desk, at, |charge| charge.way));
    let note = move || {
        let note = match way.get() {
            Way::Slices => {
                "Each part of it at its own rate. A flat sum is owed once a part is reached."
            }
            Way::Brackets => {
                "All of it at the step that it lies in. Under the first step nothing is owed."
            }
            _ => "By your sales before this one. Under the first step nothing is owed.",
        };
        note.to_owned()
    };
    let rows = move || {
        (0..count.get())
            .map(|step| step_row(desk, at, step))
            .collect::<Vec<_>>()
    };
    let add = key("Add a step", move || {
        desk.edit(|form: &mut VenueForm| form.add_step(at));
    });
    div("form flush")
        .with(parts::support("").text_of(note))
        .show(rows)
        .with(
            desk.form
                .fault_line(VenueInput::Charge(at, ChargeInput::Table)),
        )
        .with(add)
}

fn step_row(desk: Desk, at: usize, step: usize) -> El {
    let of = |input| VenueInput::Charge(at, ChargeInput::Step(step, input));
    let [from, rate, flat] =
        ["from", "percent", "flat"].map(|name| format!("charge-{at}-{name}-{step}"));
    let fields = [
        amount(&from, "From", of(StepInput::From)),
        percent(&rate, "takes", of(StepInput::Percent)),
        amount(&flat, "and flat", of(StepInput::Flat)),
    ];
    let remove = move || {
        write(desk, at, |charge| {
            if step < charge.steps.len() {
                charge.steps.remove(step);
            }
        });
    };
    let out = key("Out", remove).attr("aria-label", &format!("Take out step {}", step + 1));
    el("fieldset")
        .class("step")
        .with(
            el("legend")
                .class("hidden")
                .with(format!("Step {}", step + 1)),
        )
        .with(desk.form.row(&fields).with(out))
}
