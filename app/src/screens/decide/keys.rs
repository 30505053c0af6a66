//! The keyboard on Decide: digits, point and Backspace type into the field, Enter buys. Tab goes from field to field by
//! itself, and the keypad follows the focus.

use leptos::ev::{self, KeyboardEvent};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::Element;

use super::Desk;
use super::tray::type_key;
use crate::store::Store;
use crate::ui::keypad::Key;

/// Listens while the screen stands.
pub fn follow_keyboard(store: Store, desk: Desk) {
    let listener = window_event_listener(ev::keydown, move |event| {
        let is_busy = desk.opened.get_untracked().is_some() || desk.naming.get_untracked();
        if is_busy || event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if let Some(key) = key_of(&event) {
            let covered = untrack(|| store.draft(|draft| draft.covered));
            if key == Key::Buy && covered {
                return;
            }
            event.prevent_default();
            untrack(|| type_key(store, desk, key));
        }
    });
    on_cleanup(move || listener.remove());
}

fn key_of(event: &KeyboardEvent) -> Option<Key> {
    let on = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    let is_typing = on.as_ref().is_some_and(|on| {
        on.matches("input:not([type=radio]), textarea, select")
            .unwrap_or(false)
    });
    if is_typing {
        return None;
    }
    match event.key().as_str() {
        "." | "," => Some(Key::Point),
        "Backspace" => Some(Key::Rub),
        "Delete" => Some(Key::Clear),
        // On a key or a link, Enter is a touch of it; in a field, or nowhere, it buys. A key held down buys once.
        "Enter" if event.repeat() => None,
        "Enter" => {
            let is_pressable = on.is_some_and(|on| {
                on.matches("a, button:not([data-field]), label, input")
                    .unwrap_or(false)
            });
            (!is_pressable).then_some(Key::Buy)
        }
        key => match key.as_bytes() {
            [digit @ b'0'..=b'9'] => Some(Key::Digit(digit - b'0')),
            _ => None,
        },
    }
}
