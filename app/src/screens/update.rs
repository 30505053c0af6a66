//! A new version of the app: it waits for the trader's tap, and is held back while something typed is not saved. The boot script does the
//! work (`public/boot.js`); this says so, and passes the tap on.

use crate::live::{Live, worked};
use std::rc::Rc;

use leptos::prelude::*;
use web_sys::Event;

use crate::store::use_store;
use crate::ui::el::{El, div, on_window};
use crate::ui::notice::notice;

/// How far it is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Offer {
    /// There is none.
    None,
    /// It waits.
    Waits,
    /// It was asked for, and held back.
    Held,
}

/// The offer, which shows while nothing is being weighed up, and after a tap that was held back.
pub fn offer() -> El {
    let store = use_store();
    let root = document().document_element();
    let waits = root.is_some_and(|root| root.has_attribute("data-update"));
    let offer = Live::new(if waits { Offer::Waits } else { Offer::None });
    on_window("haulwren-update", move |_| offer.set(Offer::Waits));
    on_window("haulwren-update-held", move |_| offer.set(Offer::Held));
    let is_idle = worked(move || store.draft(haulwren_core::view::DecideDraft::is_empty));
    div("bare").show(move || {
        let (fact, hint) = match offer.get() {
            Offer::Waits if is_idle.get() => ("A new version is here.", "It takes a moment, and your book stays as it is."),
            Offer::Held => (
                "Not updated yet.",
                "Something typed is not saved, here or in another tab. Save it or empty it, then update.",
            ),
            Offer::None | Offer::Waits => return None,
        };
        Some(notice(fact, hint, "Update", Rc::new(|()| take())))
    })
}

fn take() {
    let event = Event::new("haulwren-take-update").expect("an event with a plain name");
    // Nobody calls it off: the answer comes as an event of its own.
    let sent = window().dispatch_event(&event);
    debug_assert!(sent.is_ok());
}
