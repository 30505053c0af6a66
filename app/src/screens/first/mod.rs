//! First start: the book's currency and the least to keep; then one venue, on its own page.

mod currencies;

use haulwren_core::appraise::HouseRules;
use haulwren_core::book::Command;
use haulwren_core::money::{Currency, parse};
use haulwren_core::worth::Allowances;
use leptos::ev::SubmitEvent;
use leptos::prelude::*;

use crate::route::{Route, use_routes};
use crate::shell::device;
use crate::store::use_store;
use crate::ui::field::{Entry, Field};
use crate::ui::icons::Wren;

use currencies::{likely, ordered};

/// The screen.
#[component]
pub fn First() -> impl IntoView {
    let store = use_store();
    let routes = use_routes();
    let chosen = RwSignal::new(likely());
    let least = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let amount = move || {
        let text = least.get();
        if text.trim().is_empty() {
            Ok(None)
        } else {
            parse(&text, chosen.get()).map(Some)
        }
    };
    let fault = Signal::derive(move || {
        amount()
            .err()
            .filter(|_| tried.get())
            .map(|error| error.to_string())
    });
    let begin = move |event: SubmitEvent| {
        event.prevent_default();
        tried.set(true);
        let Ok(least_keep) = untrack(amount) else {
            return;
        };
        let currency = chosen.get_untracked();
        let device = device::likely_name().to_owned();
        store.dispatch(Command::Begin { currency, device }, move |saved| {
            if !saved {
                return;
            }
            routes.replace(Route::Venue(None));
            if least_keep.is_some() {
                let rules = HouseRules {
                    least_keep,
                    ..HouseRules::starting(currency)
                };
                let allowances = Allowances::default();
                store.dispatch(Command::SetRules { rules, allowances }, |_| {});
            }
        });
    };
    let choose = move |event| {
        if let Ok(currency) = Currency::from_code(&event_target_value(&event)) {
            chosen.set(currency);
        }
    };
    let option = move |currency: Currency| {
        view! { <option value=currency.code() selected=move || chosen.get() == currency>{currency.code()}</option> }
    };
    view! {
        <div class="scroll">
            <form class="form first" on:submit=begin>
                <h1 class="first-title">
                    <Wren />
                    "Haulwren"
                </h1>
                <p>"Is it worth the asking price? Type three numbers before you pay, and log what you buy on the spot. Everything stays on this device."</p>
                <div class="field">
                    <label for="first-currency">"Currency of your book"</label>
                    <span class="hint" id="first-currency-hint">"One book has one currency. It stays."</span>
                    <select id="first-currency" aria-describedby="first-currency-hint" on:change=choose>
                        {ordered().into_iter().map(option).collect_view()}
                    </select>
                </div>
                <Field
                    id="first-least"
                    label="The least you want to keep of one sale"
                    hint="After every cost. It can stay empty, and be set later."
                    entry=Entry::Number
                    value=least
                    on_input=move |text| least.set(text)
                    fault
                />
                <button type="submit" class="press go" data-begin="">"Next: your first venue"</button>
            </form>
        </div>
    }
}
