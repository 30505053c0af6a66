//! The fields of a venue: its name, what it takes, who pays the postage, usual postage and packing.

use haulwren_core::postage::Arrangement;
use haulwren_core::terms::Base;
use haulwren_core::view::{Complaint, VenueForm, VenueInput};
use leptos::prelude::*;

use crate::ui::choice::{Choice, choice_keys};
use crate::ui::el::{El, Nodes, div, el};
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

/// The fields: what is typed, where the form goes after a change, and what can't be used.
pub fn venue_fields(
    form: Memo<VenueForm>,
    edit: Callback<VenueForm>,
    complaints: Memo<Vec<Complaint<VenueInput>>>,
) -> Nodes {
    let one = move |text: Text| {
        let fault = move |all: &Vec<Complaint<VenueInput>>| {
            let mine = all.iter().find(|one| one.field == text.input)?;
            Some(mine.sentence.clone())
        };
        let value = Signal::derive(move || form.with(|form| (text.at)(&mut form.clone()).clone()));
        let typed = Callback::new(move |typed: String| {
            let mut edited = form.get_untracked();
            *(text.at)(&mut edited) = typed;
            edit.run(edited);
        });
        let Text {
            id,
            label,
            unit,
            entry,
            ..
        } = text;
        let spec = FieldSpec {
            id,
            label,
            unit,
            entry,
            ..FieldSpec::default()
        };
        field(
            spec,
            value,
            Signal::derive(move || complaints.with(fault)),
            typed,
        )
    };
    let is_posted = Memo::new(move |_| form.with(|form| form.arrangement.is_posted()));
    let sending = move || {
        let note = || {
            el("p")
                .class("support")
                .with("Used until you type others for a thing.")
        };
        is_posted
            .get()
            .then(|| [div("pair").with(SENDING.map(one)), note()])
    };
    [
        one(NAME),
        arrangements(form, edit),
        div("pair").with(CUT.map(one)),
        bases(form, edit),
        div("bare").show(sending),
    ]
    .into()
}

/// Who pays the postage.
fn arrangements(form: Memo<VenueForm>, edit: Callback<VenueForm>) -> El {
    let choose = Callback::new(move |arrangement| {
        edit.run(VenueForm {
            arrangement,
            ..form.get_untracked()
        });
    });
    let choices = vec![
        Choice::new(
            Arrangement::BuyerAtCost,
            "+ post",
            "The buyer pays the postage on top of the price.",
        ),
        Choice::new(
            Arrangement::SellerPays,
            "Post included",
            "You pay the postage out of the price.",
        ),
        Choice::new(
            Arrangement::HandedOver,
            "In person",
            "Handed over: nothing is packed or posted.",
        ),
    ];
    let chosen = Signal::derive(move || form.with(|form| form.arrangement));
    choice_keys("Postage", "arrangement", true, choices, chosen, choose)
}

/// What the percentage is taken of.
fn bases(form: Memo<VenueForm>, edit: Callback<VenueForm>) -> El {
    let choose = Callback::new(move |base| {
        edit.run(VenueForm {
            base,
            ..form.get_untracked()
        });
    });
    let choices = vec![
        Choice::new(Base::Price, "the price", ""),
        Choice::new(Base::PriceAndPost, "price and postage", ""),
    ];
    let chosen = Signal::derive(move || form.with(|form| form.base));
    choice_keys(
        "The percentage is of",
        "base",
        false,
        choices,
        chosen,
        choose,
    )
}
