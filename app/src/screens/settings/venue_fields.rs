//! The fields of a venue: its name, what it takes, who pays the postage, usual postage and packing.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::postage::Arrangement;
use haulwren_core::terms::Base;
use haulwren_core::view::{VenueForm, VenueInput};

use super::venue::Desk;
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, div};
use crate::ui::field::{Entry, FieldSpec, field};

/// A text of the form.
#[derive(Clone, Copy)]
struct Text {
    id: &'static str,
    label: &'static str,
    unit: &'static str,
    entry: Entry,
    input: VenueInput,
    at: fn(&mut VenueForm) -> &mut String,
}

const NAME: Text = Text {
    id: "venue-name",
    label: "Name of the venue",
    unit: "",
    entry: Entry::Words,
    input: VenueInput::Name,
    at: |form| &mut form.name,
};
const CUT: [Text; 2] = [
    Text {
        id: "venue-percent",
        label: "Venue’s cut",
        unit: "%",
        entry: Entry::Number,
        input: VenueInput::Percent,
        at: |form| &mut form.percent,
    },
    Text {
        id: "venue-flat",
        label: "and on each sale",
        unit: "",
        entry: Entry::Number,
        input: VenueInput::Flat,
        at: |form| &mut form.flat,
    },
];
const SENDING: [Text; 2] = [
    Text {
        id: "venue-postage",
        label: "Usual postage",
        unit: "",
        entry: Entry::Number,
        input: VenueInput::Postage,
        at: |form| &mut form.postage,
    },
    Text {
        id: "venue-packing",
        label: "Usual packing",
        unit: "",
        entry: Entry::Number,
        input: VenueInput::Packing,
        at: |form| &mut form.packing,
    },
];

/// The fields of a form at hand.
pub fn venue_fields(desk: Desk) -> Nodes {
    let row = move |texts: &[Text]| {
        div("pair").with(
            texts
                .iter()
                .map(|text| one(desk, *text))
                .collect::<Vec<_>>(),
        )
    };
    let is_posted = worked(move || desk.form().arrangement.is_posted());
    let sending = move || {
        let note = || parts::support("Used until you type others for a thing.");
        is_posted.get().then(|| [row(&SENDING), note()])
    };
    let arrangement = choose(
        desk,
        |form| position(&ARRANGEMENTS, &form.arrangement),
        |form, at| {
            form.arrangement = ARRANGEMENTS[at].clone();
        },
    );
    let base = choose(
        desk,
        |form| position(&BASES, &form.base),
        |form, at| form.base = BASES[at],
    );
    [
        one(desk, NAME),
        choice_keys(
            "Postage",
            "arrangement",
            true,
            &ARRANGEMENT_WORDS,
            &arrangement.0,
            &arrangement.1,
        ),
        row(&CUT),
        choice_keys(
            "The percentage is of",
            "base",
            false,
            &BASE_WORDS,
            &base.0,
            &base.1,
        ),
        div("bare").show(sending),
    ]
    .into()
}

fn one(desk: Desk, text: Text) -> El {
    let Text {
        id,
        label,
        unit,
        entry,
        input,
        at,
    } = text;
    let value = move || at(&mut desk.form()).clone();
    let typed = move |typed| desk.edit(|form| *at(form) = typed);
    let spec = FieldSpec {
        id,
        label,
        unit,
        entry,
        ..FieldSpec::default()
    };
    field(
        spec,
        Rc::new(value),
        Rc::new(move || desk.fault(input)),
        Rc::new(typed),
    )
}

const ARRANGEMENTS: [Arrangement; 3] = [
    Arrangement::BuyerAtCost,
    Arrangement::SellerPays,
    Arrangement::HandedOver,
];
const ARRANGEMENT_WORDS: [(&str, &str); 3] = [
    ("+ post", "The buyer pays the postage on top of the price."),
    ("Post included", "You pay the postage out of the price."),
    ("In person", "Handed over: nothing is packed or posted."),
];
const BASES: [Base; 2] = [Base::Price, Base::PriceAndPost];
const BASE_WORDS: [(&str, &str); 2] = [("the price", ""), ("price and postage", "")];

fn position<T: PartialEq>(all: &[T], chosen: &T) -> usize {
    all.iter().position(|one| one == chosen).unwrap_or_default()
}

/// What is chosen in a form, by its place, and how to choose another.
fn choose(
    desk: Desk,
    read: fn(&VenueForm) -> usize,
    write: fn(&mut VenueForm, usize),
) -> (Now<usize>, Do<usize>) {
    let chosen = move || read(&desk.form());
    let choose = move |at| desk.edit(|form| write(form, at));
    (Rc::new(chosen), Rc::new(choose))
}
