//! Says a changing text aloud, politely: when it changes, at most once a second, and only the latest.

use std::time::Duration;

use leptos::prelude::*;

use super::el::{El, el};

/// The least time between two texts.
const PAUSE: Duration = Duration::from_secs(1);

/// A hidden region that is read out. An empty text is not said.
pub fn spoken(text: Signal<String>) -> El {
    let said = RwSignal::new(String::new());
    let waits = StoredValue::new(false);
    // Time is outside of the page's signals: a timer brings it in. What is said is a late copy on purpose.
    Effect::new(move || {
        let now = text.get();
        if waits.get_value() || said.with_untracked(|said| *said == now) {
            return;
        }
        waits.set_value(true);
        set_timeout(
            move || {
                if waits.try_set_value(false).is_none()
                    && let Some(latest) = text.try_get_untracked()
                {
                    said.try_set(latest);
                }
            },
            PAUSE,
        );
    });
    let region = el("p")
        .class("hidden")
        .attr("role", "status")
        .attr("aria-live", "polite");
    region.text_of(move || said.get())
}
