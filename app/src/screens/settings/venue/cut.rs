//! What the venue takes: in the plain case a percentage and a flat sum, else the list of all charges; and the keys from one to the other.

use std::rc::Rc;

use crate::live::worked;
use haulwren_core::view::{ChargeInput, Of, VenueForm, VenueInput};

use super::charges::charges;
use super::desk::Desk;
use super::fields::{Text, key, percent};
use super::{limits, shapes};
use crate::screens::form::amount;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div};
use crate::ui::icons::{Icon, sign};

const CUT: [Text<'static>; 2] = [
    percent(
        "venue-percent",
        "Venue’s cut",
        VenueInput::Charge(0, ChargeInput::Percent),
    ),
    amount(
        "venue-flat",
        "and on each sale",
        VenueInput::Charge(1, ChargeInput::Flat),
    ),
];

/// The part of the page.
pub fn cut(desk: Desk) -> El {
    let is_plain = worked(move || !desk.more.get() && desk.form.with(VenueForm::is_plain));
    let inside = move || -> Nodes {
        if is_plain.get() {
            [plain(desk), keys(desk, true)].into()
        } else {
            [charges(desk), keys(desk, false), limits::limits(desk)].into()
        }
    };
    div("form flush").show(inside)
}

fn plain(desk: Desk) -> El {
    let base: Now<usize> = Rc::new(move || desk.form.with(|form| form.charges[0].of as usize));
    let choose: Do<usize> = Rc::new(move |at| desk.edit(|form| form.charges[0].of = Of::at(at)));
    div("form flush")
        .with(desk.form.row(&CUT))
        .with(choice_keys(
            "The percentage is of",
            "base",
            false,
            &[("the price", ""), ("price and postage", "")],
            &base,
            &choose,
        ))
}

fn keys(desk: Desk, is_plain: bool) -> El {
    let more = move || {
        desk.more.set(true);
        if !is_plain {
            let count = desk.form.with_untracked(|form| form.charges.len());
            desk.edit(VenueForm::add_charge);
            desk.opened.set(Some(count));
        }
    };
    let word = if is_plain {
        "More charges"
    } else {
        "Add a charge"
    };
    let put_back = move || {
        let is_there = worked(move || desk.before.with(Option::is_some));
        div("bare").show(move || {
            let back = move || {
                if let Some(before) = desk.before.get_untracked() {
                    desk.edit(|form| *form = before);
                    desk.before.set(None);
                    desk.opened.set(None);
                }
            };
            is_there.get().then(|| key("Put my charges back", back))
        })
    };
    div("pair keys-row")
        .with(
            button("press")
                .on_click(more)
                .with(sign(Icon::Plus))
                .with(word),
        )
        .with(shapes::key_of(desk))
        .with(put_back())
}
