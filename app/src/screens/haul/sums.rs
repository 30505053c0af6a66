//! What the haul comes to: spent, how many things, and what was to be kept of them.

use haulwren_core::view::HaulView;

use crate::format;
use crate::ui::el::{El, div, el};

/// The row of sums.
pub fn sums(view: &HaulView) -> El {
    let keep = format::or_loss(view.keep, view.currency);
    let unjudged = (view.unjudged > 0).then(|| sum("Not judged", view.unjudged.to_string(), false));
    el("dl")
        .class("haul-sums")
        .with(sum(
            "Spent",
            format::amount(view.spent, view.currency),
            false,
        ))
        .with(sum("Things", view.rows.len().to_string(), false))
        .with(sum("You keep, as judged", keep, view.keep.is_negative()))
        .with(unjudged)
}

/// One sum with its word over it.
pub fn sum(word: &str, amount: String, is_loss: bool) -> El {
    let amount = el("dd")
        .class(if is_loss { "loss" } else { "" })
        .with(amount);
    div("").with(el("dt").with(word)).with(amount)
}
