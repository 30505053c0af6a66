//! The fields of a venue: its name, what it takes, who pays the postage, usual postage and packing.

use haulwren_core::postage::Arrangement;
use haulwren_core::terms::Base;
use haulwren_core::view::{Complaint, VenueForm, VenueInput};
use leptos::prelude::*;

use crate::ui::choice::{Choice, ChoiceKeys};
use crate::ui::field::{Entry, Field};

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
    let fault = move |field| {
        Signal::derive(move || {
            complaints.with(|all| {
                all.iter()
                    .find(|one| one.field == field)
                    .map(|one| one.sentence.clone())
            })
        })
    };
    let typed = move |change: fn(&mut VenueForm, String)| {
        Callback::new(move |text: String| {
            let mut edited = form.get_untracked();
            change(&mut edited, text);
            edit.run(edited);
        })
    };
    let value = move |read: fn(&VenueForm) -> &String| {
        Signal::derive(move || form.with(|form| read(form).clone()))
    };
    let arrange = move |arrangement| {
        edit.run(VenueForm {
            arrangement,
            ..form.get_untracked()
        })
    };
    let take_of = move |base| {
        edit.run(VenueForm {
            base,
            ..form.get_untracked()
        })
    };
    let is_posted = Memo::new(move |_| form.with(|form| form.arrangement.is_posted()));
    let arrangements = vec![
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
    let bases = vec![
        Choice::new(Base::Price, "the price", ""),
        Choice::new(Base::PriceAndPost, "price and postage", ""),
    ];
    view! {
        <Field
            id="venue-name"
            label="Name of the venue"
            value=value(|form| &form.name)
            on_input=typed(|form, text| form.name = text)
            fault=fault(VenueInput::Name)
        />
        <ChoiceKeys
            legend="Postage"
            name="arrangement"
            choices=arrangements
            chosen=Signal::derive(move || form.with(|form| form.arrangement))
            on_choose=arrange
            stacked=true
        />
        <div class="pair">
            <Field
                id="venue-percent"
                label="Venue’s cut"
                unit="%"
                entry=Entry::Number
                value=value(|form| &form.percent)
                on_input=typed(|form, text| form.percent = text)
                fault=fault(VenueInput::Percent)
            />
            <Field
                id="venue-flat"
                label="and on each sale"
                entry=Entry::Number
                value=value(|form| &form.flat)
                on_input=typed(|form, text| form.flat = text)
                fault=fault(VenueInput::Flat)
            />
        </div>
        <ChoiceKeys
            legend="The percentage is of"
            name="base"
            choices=bases
            chosen=Signal::derive(move || form.with(|form| form.base))
            on_choose=take_of
        />
        <Show when=move || is_posted.get()>
            <div class="pair">
                <Field
                    id="venue-postage"
                    label="Usual postage"
                    entry=Entry::Number
                    value=value(|form| &form.postage)
                    on_input=typed(|form, text| form.postage = text)
                    fault=fault(VenueInput::Postage)
                />
                <Field
                    id="venue-packing"
                    label="Usual packing"
                    entry=Entry::Number
                    value=value(|form| &form.packing)
                    on_input=typed(|form, text| form.packing = text)
                    fault=fault(VenueInput::Packing)
                />
            </div>
            <p class="support">"Used until you type others for a thing."</p>
        </Show>
    }
}
