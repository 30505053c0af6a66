//! One sum with its word over it.

use crate::ui::el::{El, div, el};

/// One sum with its word over it.
pub fn sum(word: &str, amount: String, is_loss: bool) -> El {
    let amount = el("dd")
        .class(if is_loss { "loss" } else { "" })
        .with(amount);
    div("").with(el("dt").with(word)).with(amount)
}
