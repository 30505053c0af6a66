//! The cover key. Touched, it covers; then a touch shows everything again, and a hold shows it only while it lasts.

use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, PointerEvent};

use super::Desk;
use crate::live::Live;
use crate::store::use_store;
use crate::ui::el::{Do, El, Nodes, button};
use crate::ui::icons::{Icon, sign};

/// Held longer than this, it only peeks.
const HOLD: Duration = Duration::from_millis(300);

/// Decide's key: what is open over the screen closes when it is touched.
pub fn cover_key(desk: Desk) -> El {
    let closes = move |()| {
        desk.opened.set(None);
        desk.naming.set(false);
    };
    key(desk.covered, desk.peeking, Rc::new(closes))
}

/// The key of any screen that can be covered. `closes` is done before it covers or shows.
pub fn key(covered: Live<bool>, peeking: Live<bool>, closes: Do<()>) -> El {
    let store = use_store();
    let timer = Rc::new(Cell::new(None::<TimeoutHandle>));
    let was_held = Rc::new(Cell::new(false));
    let end: Do<()> = {
        let timer = timer.clone();
        Rc::new(move |()| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
            if peeking.get_untracked() {
                peeking.set(false);
            }
        })
    };
    let holds = was_held.clone();
    let down = move |event: Event| {
        holds.set(false);
        if !covered.get_untracked() {
            return;
        }
        keep_pointer(&event);
        let (holds, held) = (holds.clone(), timer.clone());
        let peek = move || {
            held.set(None);
            // The screen may have gone in the meantime.
            if !peeking.is_gone() {
                holds.set(true);
                peeking.set(true);
            }
        };
        timer.set(set_timeout_with_handle(peek, HOLD).ok());
    };
    let touched = move || {
        if was_held.take() {
            return;
        }
        closes(());
        store.edit_draft(|draft| draft.covered = !draft.covered);
    };
    let face = move || {
        let (icon, word) = if covered.get() {
            (Icon::Show, "Show")
        } else {
            (Icon::Cover, "Cover")
        };
        [Nodes::from(sign(icon)), word.into()]
    };
    let mut key = button("press cover-key")
        .attr("data-key", "cover")
        .on("pointerdown", down);
    for event in ["pointerup", "pointercancel", "lostpointercapture"] {
        let end = end.clone();
        key = key.on(event, move |_| end(()));
    }
    key.on("contextmenu", |event| event.prevent_default())
        .on_click(touched)
        .show(face)
}

/// Without it, a finger that slides off the key would leave the screen open until it is lifted there.
fn keep_pointer(event: &Event) {
    let key = event
        .current_target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    if let (Some(key), Some(pointer)) = (key, event.dyn_ref::<PointerEvent>()) {
        // Refused for a pointer that is already up, and then nothing is held.
        let _ = key.set_pointer_capture(pointer.pointer_id());
    }
}
