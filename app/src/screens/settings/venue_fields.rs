//! The fields of a venue: its name, what it takes, who pays the postage, usual postage and packing.

use haulwren_core::postage::Arrangement;
use haulwren_core::terms::Base;
use haulwren_core::view::{Complaint, VenueForm, VenueInput};
use leptos::prelude::*;

use crate::ui::choice::{Choice, ChoiceKeys};
use crate::ui::field::{Entry, Field};

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

/// The fields.
#[component]
pub fn VenueFields(
    /// What is typed.
    form: Memo<VenueForm>,
    /// Called with the form as it is after a change.
    edit: Callback<VenueForm>,
    /// What can't be used.
    complaints: Memo<Vec<Complaint<VenueInput>>>,
) -> impl IntoView {
    let field = move |text: Text| {
        let fault = move |all: &Vec<Complaint<VenueInput>>| {
            let mine = all.iter().find(|one| one.field == text.input)?;
            Some(mine.sentence.clone())
        };
        let value = Signal::derive(move || form.with(|form| (text.at)(&mut form.clone()).clone()));
        let typed = move |typed: String| {
            let mut edited = form.get_untracked();
            *(text.at)(&mut edited) = typed;
            edit.run(edited);
        };
        view! {
            <Field
                id=text.id
                label=text.label
                unit=text.unit
                entry=text.entry
                value
                on_input=typed
                fault=Signal::derive(move || complaints.with(fault))
            />
        }
    };
    let is_posted = Memo::new(move |_| form.with(|form| form.arrangement.is_posted()));
    view! {
        {field(NAME)}
        <Arrangements form edit />
        <div class="pair">{CUT.map(field).collect_view()}</div>
        <Bases form edit />
        <Show when=move || is_posted.get()>
            <div class="pair">{SENDING.map(field).collect_view()}</div>
            <p class="support">"Used until you type others for a thing."</p>
        </Show>
    }
}

/// Who pays the postage.
#[component]
fn Arrangements(form: Memo<VenueForm>, edit: Callback<VenueForm>) -> impl IntoView {
    let choose = move |arrangement| {
        edit.run(VenueForm {
            arrangement,
            ..form.get_untracked()
        });
    };
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
    view! {
        <ChoiceKeys
            legend="Postage"
            name="arrangement"
            choices
            chosen=Signal::derive(move || form.with(|form| form.arrangement))
            on_choose=choose
            stacked=true
        />
    }
}

/// What the percentage is taken of.
#[component]
fn Bases(form: Memo<VenueForm>, edit: Callback<VenueForm>) -> impl IntoView {
    let choose = move |base| {
        edit.run(VenueForm {
            base,
            ..form.get_untracked()
        });
    };
    let choices = vec![
        Choice::new(Base::Price, "the price", ""),
        Choice::new(Base::PriceAndPost, "price and postage", ""),
    ];
    view! {
        <ChoiceKeys
            legend="The percentage is of"
            name="base"
            choices
            chosen=Signal::derive(move || form.with(|form| form.base))
            on_choose=choose
        />
    }
}
