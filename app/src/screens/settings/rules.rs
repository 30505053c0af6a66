//! House rules and allowances: what a buy must leave, and what is set aside before judging.

use haulwren_core::book::Command;
use haulwren_core::view::{Complaint, RulesForm, RulesInput};
use leptos::ev::SubmitEvent;
use leptos::prelude::*;

use crate::store::use_store;
use crate::ui::field::{Check, Entry, Field};

/// The form.
#[component]
pub fn Rules() -> impl IntoView {
    let store = use_store();
    let stored = Memo::new(move |_| store.read_setup(RulesForm::of).unwrap_or_default());
    let form = Memo::new(move |_| store.rules_draft().unwrap_or_else(|| stored.get()));
    let tried = RwSignal::new(false);
    let currency = Memo::new(move |_| store.read_setup(haulwren_core::book::State::currency));
    let complaints = Memo::new(move |_| {
        let read = currency
            .get()
            .map(|currency| form.with(|form| form.read(currency)));
        read.and_then(Result::err)
            .filter(|_| tried.get())
            .unwrap_or_default()
    });
    let fault = move |field| {
        Signal::derive(move || {
            complaints.with(|all| {
                all.iter()
                    .find(|one: &&Complaint<RulesInput>| one.field == field)
                    .map(|one| one.sentence.clone())
            })
        })
    };
    let edit = move |change: fn(&mut RulesForm, String)| {
        Callback::new(move |text: String| {
            let mut edited = form.get_untracked();
            change(&mut edited, text);
            store.keep_rules_draft(Some(edited));
        })
    };
    let value = move |read: fn(&RulesForm) -> &String| {
        Signal::derive(move || form.with(|form| read(form).clone()))
    };
    let save = move |event: SubmitEvent| {
        event.prevent_default();
        tried.set(true);
        let Some(currency) = currency.get_untracked() else {
            return;
        };
        let Ok((rules, allowances)) = form.get_untracked().read(currency) else {
            return;
        };
        store.dispatch(Command::SetRules { rules, allowances }, move |saved| {
            if saved {
                tried.set(false);
                store.keep_rules_draft(None);
            }
        });
    };
    let percent = || "%".to_owned();
    view! {
        <form class="form flush" on:submit=save>
            <Field
                id="least-keep"
                label="The least you keep"
                hint="Of one sale at the likely price. Empty: no such limit."
                entry=Entry::Number
                value=value(|form| &form.least_keep)
                on_input=edit(|form, text| form.least_keep = text)
                fault=fault(RulesInput::LeastKeep)
            />
            <Check
                id="no-loss-low"
                label="No loss if it sells at the low price"
                ticked=Signal::derive(move || form.with(|form| form.no_loss_if_low))
                on_tick=move |ticked| {
                    let mut edited = form.get_untracked();
                    edited.no_loss_if_low = ticked;
                    store.keep_rules_draft(Some(edited));
                }
            />
            <div class="pair">
                <Field
                    id="cash-step"
                    label="Cash step"
                    hint="“No more than” is shown in these steps."
                    entry=Entry::Number
                    value=value(|form| &form.cash_step)
                    on_input=edit(|form, text| form.cash_step = text)
                    fault=fault(RulesInput::CashStep)
                />
                <Field
                    id="reach"
                    label="Sellers come down by"
                    hint="Up to this share of the ask."
                    unit=percent()
                    entry=Entry::Number
                    value=value(|form| &form.reach)
                    on_input=edit(|form, text| form.reach = text)
                    fault=fault(RulesInput::Reach)
                />
            </div>
            <p class="support">"Set aside of every price, before judging:"</p>
            <div class="pair">
                <Field
                    id="unsold"
                    label="Never sell"
                    unit=percent()
                    entry=Entry::Number
                    value=value(|form| &form.unsold)
                    on_input=edit(|form, text| form.unsold = text)
                    fault=fault(RulesInput::Unsold)
                />
                <Field
                    id="offers"
                    label="Offers"
                    unit=percent()
                    entry=Entry::Number
                    value=value(|form| &form.offers)
                    on_input=edit(|form, text| form.offers = text)
                    fault=fault(RulesInput::Offers)
                />
                <Field
                    id="returns"
                    label="Returns"
                    unit=percent()
                    entry=Entry::Number
                    value=value(|form| &form.returns)
                    on_input=edit(|form, text| form.returns = text)
                    fault=fault(RulesInput::Returns)
                />
            </div>
            <button
                type="submit"
                class="press go"
                disabled=move || form.with(|form| stored.with(|stored| form == stored))
            >
                "Save rules"
            </button>
        </form>
    }
}
