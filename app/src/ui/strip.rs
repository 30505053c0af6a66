//! The strip over a screen: where one is, that it is saved here, and what cash is left.

use haulwren_core::money::{Currency, Money};
use leptos::prelude::*;

use super::el::{El, Nodes, div, el, span};
use super::icons::{Icon, sign};
use crate::format;

/// The strip: the screen's title, whether there is no signal, and cash left when it is known.
pub fn strip(
    title: Signal<String>,
    offline: Signal<bool>,
    cash: Signal<Option<(Money, Currency)>>,
) -> El {
    let saved = move || {
        let (icon, words) = if offline.get() {
            (Icon::NoSignal, "No signal. Saved on this device")
        } else {
            (Icon::Saved, "Saved on this device")
        };
        [Nodes::from(sign(icon)), Nodes::from(words)]
    };
    let left = move || {
        cash.get().map(|(left, currency)| {
            div("strip-cash")
                .with(span("").with("Cash left"))
                .with(el("b").with(format::headline(left, currency)))
        })
    };
    let where_one_is = el("div")
        .with(el("h1").text_of(move || title.get()))
        .with(el("p").show(saved));
    el("header").class("strip").with(where_one_is).show(left)
}
