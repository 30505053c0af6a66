//! The cover key. Touched, it covers; then a touch shows everything again, and a hold shows it only while it lasts.

use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, PointerEvent};

use super::Desk;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button};
use crate::ui::icons::{Icon, sign};

/// Held longer than this, it only peeks.
const HOLD: Duration = Duration::from_millis(300);

/// The key.
pub fn cover_key(desk: Desk) -> El {
    let store = use_store();
    let covered = Memo::new(move |_| store.draft(|draft| draft.covered));
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let was_held = StoredValue::new(false);
    let end = move || {
        if let Some(timer) = timer.try_update_value(Option::take).flatten() {
            timer.clear();
        }
        if desk.peeking.try_get_untracked() == Some(true) {
            desk.peeking.set(false);
        }
    };
    let down = move |event: Event| {
        was_held.set_value(false);
        if !covered.get_untracked() {
            return;
        }
        keep_pointer(&event);
        let peek = move || {
            was_held.set_value(true);
            desk.peeking.set(true);
        };
        timer.set_value(set_timeout_with_handle(peek, HOLD).ok());
    };
    let touched = move || {
        if was_held.get_value() {
            was_held.set_value(false);
            return;
        }
        desk.opened.set(None);
        desk.naming.set(false);
        store.edit_draft(|draft| draft.covered = !draft.covered);
    };
    on_cleanup(end);
    let face = move || {
        let (icon, word) = if covered.get() {
            (Icon::Show, "Show")
        } else {
            (Icon::Cover, "Cover")
        };
        [Nodes::from(sign(icon)), word.into()]
    };
    button("press cover-key")
        .attr("data-key", "cover")
        .on("pointerdown", down)
        .on("pointerup", move |_| end())
        .on("pointercancel", move |_| end())
        .on("lostpointercapture", move |_| end())
        .on("contextmenu", |event| event.prevent_default())
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
