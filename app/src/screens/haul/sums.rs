//! What the haul comes to: spent, how many things, and what was to be kept of them.

use haulwren_core::view::HaulView;
use leptos::prelude::*;

use crate::format;
use crate::store::use_store;
use crate::ui::el::{El, div, el};

/// The row of sums.
pub fn sums() -> El {
    let view = use_store().haul_view();
    el("dl")
        .class("haul-sums")
        .show(move || view.with(|view| view.as_ref().map(all)))
}

/// One sum with its word over it.
pub fn sum(word: &str, amount: String, is_loss: bool) -> El {
    let amount = el("dd")
        .class(if is_loss { "loss" } else { "" })
        .with(amount);
    div("").with(el("dt").with(word)).with(amount)
}

fn all(view: &HaulView) -> Vec<El> {
    let mut all = vec![
        sum("Spent", format::amount(view.spent, view.currency), false),
        sum("Things", view.rows.len().to_string(), false),
        sum(
            "You keep, as judged",
            format::or_loss(view.keep, view.currency),
            view.keep.is_negative(),
        ),
    ];
    if view.unjudged > 0 {
        all.push(sum("Not judged", view.unjudged.to_string(), false));
    }
    all
}
