//! Limits on several charges together.

use crate::live::worked;
use haulwren_core::view::{
    ChargeForm, GroupForm, GroupInput, VenueForm, VenueInput, is_marked, marked,
};

use super::desk::Desk;
use super::fields::key;
use crate::screens::form::{amount, words};
use crate::ui::el::{El, div, el};

/// All limits, and the key that adds one.
pub fn limits(desk: Desk) -> El {
    let count = worked(move || desk.form.with(|form| form.groups.len()));
    let names = worked(move || {
        let name = |charge: &ChargeForm| charge.label.clone();
        desk.form
            .with(|form| form.charges.iter().map(name).collect::<Vec<_>>())
    });
    let rows = move || {
        let (groups, names) = (count.get(), names.get());
        let one = |at| limit(desk, at, &names);
        (0..groups).map(one).collect::<Vec<_>>()
    };
    let has_several = worked(move || names.with(|names| names.len() > 1));
    let add = move || {
        let add = || {
            key("Limit several charges together", move || {
                desk.edit(VenueForm::add_limit);
            })
        };
        has_several.get().then(add)
    };
    div("form flush").show(rows).show(add)
}

fn limit(desk: Desk, at: usize, names: &[String]) -> El {
    let of = |input| VenueInput::Group(at, input);
    let id = |name: &str| format!("limit-{at}-{name}");
    let mut ticks = el("fieldset")
        .class("ticks")
        .with(el("legend").with("These charges together"));
    for (charge, name) in names.iter().enumerate() {
        ticks = ticks.with(desk.form.tick(
            &format!("limit-{at}-of-{charge}"),
            name,
            move |form| {
                form.groups
                    .get(at)
                    .is_some_and(|group| is_marked(group.charges, charge))
            },
            move |form, on| {
                change(form, at, |group| {
                    group.charges = marked(group.charges, charge, on);
                });
            },
        ));
    }
    let [least, most] = ["least", "most"].map(id);
    let bounds = [
        amount(&least, "At least", of(GroupInput::Least)),
        amount(&most, "At most", of(GroupInput::Most)),
    ];
    let remove = move || {
        desk.edit(|form| {
            if at < form.groups.len() {
                form.groups.remove(at);
            }
        });
    };
    el("fieldset")
        .class("charge charge-fields form")
        .with(el("legend").with(format!("Limit {}", at + 1)))
        .with(desk.form.field(&words(
            &id("label"),
            "What it is called",
            of(GroupInput::Label),
        )))
        .with(ticks.with(desk.form.fault_line(of(GroupInput::Charges))))
        .with(desk.form.row(&bounds))
        .with(key("Remove this limit", remove))
}

fn change(form: &mut VenueForm, at: usize, write: impl FnOnce(&mut GroupForm)) {
    if let Some(group) = form.groups.get_mut(at) {
        write(group);
    }
}
