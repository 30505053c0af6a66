//! What went wrong, that there is nothing yet, and that a save takes long.

use crate::follow::follow_later;
use crate::live::Live;
use std::cell::Cell;
use std::time::Duration;

use leptos::prelude::*;

use super::el::{Do, El, Nodes, button, div, el};

/// An error: the bold fact, what to do, and one button with its word.
pub fn notice(fact: &str, hint: &str, word: &str, on_action: Do<()>) -> El {
    div("notice")
        .attr("role", "alert")
        .with(el("p").with(el("b").with(fact)).with(" ").with(hint))
        .with(action("press strong", word, on_action))
}

/// A button of an error.
pub fn action(class: &str, word: &str, on_action: Do<()>) -> El {
    button(class).on_click(move || on_action(())).with(word)
}

/// Nothing here yet: one plain line, and the next action in it.
pub fn empty(line: &str, inside: impl Into<Nodes>) -> El {
    div("empty").with(el("p").with(line)).with(inside)
}

/// A hollow bar while a save takes longer than 300 ms. It never blocks anything.
pub fn saving(saving: Live<bool>) -> El {
    let is_long = Live::new(false);
    let waits = Cell::new(None::<TimeoutHandle>);
    // Time is outside of the page's signals: a timer brings it in.
    follow_later(Box::new(move || {
        if let Some(timer) = waits.take() {
            timer.clear();
        }
        is_long.set(false);
        if saving.get() {
            let late = Duration::from_millis(300);
            waits.set(set_timeout_with_handle(move || is_long.set(true), late).ok());
        }
    }));
    div("bare").show(move || {
        let bar = || {
            div("saving")
                .attr("role", "status")
                .with(el("i"))
                .with("Saving")
        };
        (saving.get() && is_long.get()).then(bar)
    })
}
