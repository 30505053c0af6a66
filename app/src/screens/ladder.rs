//! A price that has to be chosen, on a ladder with what alike things are thought to sell for: the dearest at the top.

use std::cmp::Reverse;

use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{Alike, Choice};

use crate::format;
use crate::ui::el::{El, div, el, span};

/// The ladder. `keys` are the choices as they stand on the page, in their order.
pub fn ladder(alike: &Alike, choices: &[Choice], keys: Vec<El>, currency: Currency) -> El {
    let amount = |price| format::amount(price, currency);
    let other = |(name, price): &(String, Money)| {
        let rung = el("li")
            .class("other")
            .with(el("b").with(amount(*price)))
            .with(" ")
            .with(span("support").with(name.as_str()));
        (Some(*price), rung)
    };
    let said = |(choice, key): (&Choice, El)| (choice.price, el("li").class("said").with(key));
    let mut rungs: Vec<(Option<Money>, El)> = alike.prices.iter().map(other).collect();
    if alike.prices.len() > 1 {
        let words = format!("middle of {}: {}", alike.prices.len(), amount(alike.middle));
        let middle = el("li").class("middle support").with(words);
        rungs.push((Some(alike.middle), middle));
    }
    rungs.extend(choices.iter().zip(keys).map(said));
    // A choice without a price, such as that it has none, stands at the foot.
    rungs.sort_by_key(|(price, _)| Reverse(*price));
    let heads = div("ladder-heads")
        .with(span("").with(alike.words))
        .with(span("").with("Sells for?"));
    let rungs: Vec<El> = rungs.into_iter().map(|(_, rung)| rung).collect();
    div("bare")
        .with(heads)
        .with(el("ol").class("ladder").with(rungs))
}
