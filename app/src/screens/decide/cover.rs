//! The cover key. Touched, it covers; then a touch shows everything again, and a hold shows it only while it lasts.

use std::time::Duration;

use leptos::ev::PointerEvent;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::Element;

use super::Desk;
use crate::store::use_store;
use crate::ui::icons::{Icon, Sign};

/// Held longer than this, it only peeks.
const HOLD: Duration = Duration::from_millis(300);

/// The key.
#[component]
pub fn CoverKey(desk: Desk) -> impl IntoView {
    let store = use_store();
    let covered = Memo::new(move |_| store.draft(|draft| draft.covered));
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let was_held = StoredValue::new(false);
    let end = move || {
        if let Some(timer) = timer.try_update_value(Option::take).flatten() {
            timer.clear();
        }
        if desk.peeking.get_untracked() {
            desk.peeking.set(false);
        }
    };
    let down = move |event: PointerEvent| {
        was_held.set_value(false);
        if !covered.get_untracked() {
            return;
        }
        if let Some(key) = event
            .current_target()
            .and_then(|target| target.dyn_into::<Element>().ok())
        {
            // Without it, a finger that slides off the key leaves the screen open until it is lifted there.
            let _ = key.set_pointer_capture(event.pointer_id());
        }
        let held = set_timeout_with_handle(
            move || {
                was_held.set_value(true);
                desk.peeking.set(true);
            },
            HOLD,
        );
        timer.set_value(held.ok());
    };
    let touched = move |_| {
        if was_held.get_value() {
            was_held.set_value(false);
        } else {
            desk.opened.set(None);
            desk.naming.set(false);
            store.edit_draft(|draft| draft.covered = !draft.covered);
        }
    };
    on_cleanup(end);
    view! {
        <button
            type="button"
            class="press cover-key"
            data-key="cover"
            on:pointerdown=down
            on:pointerup=move |_| end()
            on:pointercancel=move |_| end()
            on:lostpointercapture=move |_| end()
            on:contextmenu=move |event| event.prevent_default()
            on:click=touched
        >
            {move || {
                let icon = if covered.get() { Icon::Show } else { Icon::Cover };
                view! { <Sign icon /> }
            }}
            {move || if covered.get() { "Show" } else { "Cover" }}
        </button>
    }
}
