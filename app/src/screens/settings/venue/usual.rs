//! How things usually sell on the venue: asked where its charges hang on it.

use std::rc::Rc;

use crate::live::worked;
use haulwren_core::view::{Promotion, UsualInput, VenueForm, VenueInput};

use super::desk::Desk;
use super::fields::{key, percent, pick};
use crate::screens::form::{amount, words};
use crate::screens::parts;
use crate::ui::el::{El, div};

const PROMOTED: [&str; 3] = ["Not said", "Mostly promoted", "Mostly not promoted"];

/// The part of the page.
pub fn usual(desk: Desk) -> El {
    let asks_promotion = worked(move || desk.form.with(VenueForm::asks_promotion));
    let asks_monthly = worked(move || desk.form.with(VenueForm::asks_monthly));
    let asks_regions = worked(move || desk.form.with(VenueForm::asks_regions));
    let head = move || {
        let is_asked = asks_promotion.get() || asks_monthly.get() || asks_regions.get();
        is_asked.then(|| {
            let note = "What you leave unsaid is judged as the dearer way.";
            [
                parts::heading("How you usually sell there"),
                parts::support(note),
            ]
        })
    };
    let promoted = move || {
        asks_promotion.get().then(|| {
            pick(
                "usual-promoted",
                "Paid promotion",
                &PROMOTED,
                Rc::new(move || desk.form.with(|form| form.usual.promoted as usize)),
                Rc::new(move |at| desk.edit(|form| form.usual.promoted = Promotion::at(at))),
            )
        })
    };
    let monthly = move || {
        let input = VenueInput::Usual(UsualInput::Monthly);
        let field = || {
            desk.form
                .field(&amount("usual-monthly", "Usual sales a month", input))
        };
        asks_monthly.get().then(field)
    };
    let regions = move || asks_regions.get().then(|| regions(desk));
    div("form flush")
        .show(head)
        .show(promoted)
        .show(monthly)
        .show(regions)
}

/// Regions with their shares, a row each.
fn regions(desk: Desk) -> El {
    let count = worked(move || desk.form.with(|form| form.usual.regions.len()));
    let rows = move || {
        let one = |at: usize| {
            let [name, share] = ["name", "share"].map(|what| format!("usual-{at}-{what}"));
            let of = |input| VenueInput::Usual(input);
            desk.form.row(&[
                words(&name, "Buyers in", of(UsualInput::Region(at))),
                percent(&share, "Share", of(UsualInput::Share(at))),
            ])
        };
        (0..count.get()).map(one).collect::<Vec<_>>()
    };
    let add = move || desk.edit(VenueForm::add_usual_region);
    div("form flush")
        .show(rows)
        .with(desk.form.fault_line(VenueInput::Usual(UsualInput::Regions)))
        .with(key("Add a share of your buyers", add))
}
