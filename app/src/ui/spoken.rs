//! Says a changing text aloud, politely: when it changes, at most once a second, and only the latest.

use crate::follow::follow;
use crate::live::Live;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::{set_timeout, untrack};

use super::el::{El, Now, el};

/// The least time between two texts.
const PAUSE: Duration = Duration::from_secs(1);

/// A hidden region that is read out. An empty text is not said.
pub fn spoken(text: Now<String>) -> El {
    let said = Live::new(String::new());
    let waits = Rc::new(Cell::new(false));
    // Time is outside of the page's signals: a timer brings it in. What is said is a late copy on purpose.
    follow(Box::new(move || {
        let now = text();
        if waits.get() || said.with_untracked(|said| *said == now) {
            return;
        }
        waits.set(true);
        let (text, waits) = (text.clone(), waits.clone());
        set_timeout(
            move || {
                waits.set(false);
                // The screen may have gone in the meantime, and what it shows with it.
                if !said.is_gone() {
                    said.set(untrack(|| text()));
                }
            },
            PAUSE,
        );
    }));
    let region = el("p")
        .class("hidden")
        .attr("role", "status")
        .attr("aria-live", "polite");
    region.text_of(move || said.get())
}
