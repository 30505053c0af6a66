//! The stages: a bar at the bottom of a phone, a rail at the left from 900 px.

use leptos::prelude::*;

use super::icons::{Icon, Sign, Wren};

/// One stage.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Tab {
    /// Its word.
    pub word: &'static str,
    /// Its sign.
    pub icon: Icon,
    /// Where it leads, as a link on the page.
    pub href: String,
}

/// The bar or rail.
#[component]
pub fn Tabs(
    /// The stages, in order.
    tabs: Vec<Tab>,
    /// The place of the stage that is open, if one is.
    #[prop(into)]
    current: Signal<Option<usize>>,
    /// Two or three words at the foot of the rail.
    #[prop(into, optional)]
    foot: Signal<String>,
) -> impl IntoView {
    let tab = move |(at, tab): (usize, Tab)| {
        view! {
            <a
                class="tab"
                href=tab.href
                aria-current=move || (current.get() == Some(at)).then_some("page")
            >
                <Sign icon=tab.icon />
                {tab.word}
            </a>
        }
    };
    view! {
        <nav class="tabs" aria-label="Stages">
            <span class="brand">
                <Wren />
                "Haulwren"
            </span>
            {tabs.into_iter().enumerate().map(tab).collect_view()}
            <p class="tabs-foot">{foot}</p>
        </nav>
    }
}
