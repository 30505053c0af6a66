//! A venue beside the others: what is kept there, and who pays the postage. The cards are one radio group.

use haulwren_core::money::{Currency, Money};
use haulwren_core::postage::Arrangement;
use leptos::prelude::*;

use super::icons::{Icon, Sign};
use crate::format;

/// What a card shows.
#[derive(Clone, PartialEq, Debug)]
pub struct VenueFacts {
    /// The venue's name.
    pub name: String,
    /// What is kept there; `None` while it can't be told.
    pub keep: Option<Money>,
    /// Who pays the postage.
    pub arrangement: Arrangement,
    /// What the buyer pays for postage.
    pub post_in: Money,
    /// Whether it is the one judged on.
    pub is_judged: bool,
    /// The book's currency.
    pub currency: Currency,
}

impl VenueFacts {
    fn postage(&self) -> String {
        match self.arrangement {
            Arrangement::BuyerAtCost if self.post_in.is_zero() => "+ post".to_owned(),
            Arrangement::BuyerAtCost => {
                format!("+ post {}", format::amount(self.post_in, self.currency))
            }
            Arrangement::SellerPays => "post included".to_owned(),
            Arrangement::HandedOver => "in person".to_owned(),
        }
    }
}

/// One card.
#[component]
pub fn VenueCard(
    /// What it shows.
    #[prop(into)]
    facts: Signal<VenueFacts>,
    /// Called when it is chosen.
    #[prop(into)]
    on_choose: Callback<()>,
) -> impl IntoView {
    let keep = move || {
        facts.with(|facts| {
            facts.keep.map_or_else(
                || view! { <b>"–"</b> }.into_any(),
                |keep| {
                    let is_loss = keep.is_negative();
                    view! { <b class:loss=is_loss>{format::or_loss(keep, facts.currency)}</b> }
                        .into_any()
                },
            )
        })
    };
    view! {
        <label class="venue">
            <input
                type="radio"
                name="venue"
                prop:checked=move || facts.with(|facts| facts.is_judged)
                on:change=move |_| on_choose.run(())
            />
            <span class="card">
                <span class="name">{move || facts.with(|facts| facts.name.clone())} <Sign icon=Icon::Tick /></span>
                {keep}
                <small>{move || facts.with(VenueFacts::postage)}</small>
            </span>
        </label>
    }
}
