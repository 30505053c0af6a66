//! The strip over a screen: where one is, that it is saved here, and what cash is left.

use haulwren_core::money::{Currency, Money};
use leptos::prelude::*;

use super::icons::{Icon, Sign};
use crate::format;

/// The strip.
#[component]
pub fn Strip(
    /// The screen's title.
    #[prop(into)]
    title: Signal<String>,
    /// Whether there is no signal.
    #[prop(into)]
    offline: Signal<bool>,
    /// Cash left, when it is known.
    #[prop(into, optional)]
    cash: Signal<Option<(Money, Currency)>>,
) -> impl IntoView {
    view! {
        <header class="strip">
            <div>
                <h1>{title}</h1>
                <p>
                    {move || {
                        let icon = if offline.get() { Icon::NoSignal } else { Icon::Saved };
                        view! { <Sign icon /> }
                    }}
                    {move || if offline.get() { "No signal. Saved on this device" } else { "Saved on this device" }}
                </p>
            </div>
            {move || {
                cash.get()
                    .map(|(left, currency)| {
                        view! {
                            <div class="strip-cash">
                                <span>"Cash left"</span>
                                <b>{format::headline(left, currency)}</b>
                            </div>
                        }
                    })
            }}
        </header>
    }
}
