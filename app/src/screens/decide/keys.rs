//! The keyboard on Decide: digits, point and Backspace type into the field, Enter buys. Tab goes from field to field by
//! itself, and the keypad follows the focus.

use haulwren_core::view::Press;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};

use super::Desk;
use super::tray::type_key;
use crate::store::Store;
use crate::ui::el::on_window;
use crate::ui::keypad::Key;

/// Listens while the screen stands.
pub fn follow(store: Store, desk: Desk) {
    on_window("keydown", move |event| {
        if let Some(event) = event.dyn_ref::<KeyboardEvent>() {
            heard(store, desk, event);
        }
    });
}

fn heard(store: Store, desk: Desk, event: &KeyboardEvent) {
    let is_busy = desk.opened.get_untracked().is_some() || desk.naming.get_untracked();
    if is_busy || is_on_sheet() || event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    let covered = desk.covered.get_untracked();
    if event.key() == "Tab" && !event.shift_key() && !covered && is_on_nothing() {
        event.prevent_default();
        return focus_field(untrack(|| store.draft(|draft| draft.focus.name())));
    }
    match key_of(event) {
        Some(Key::Buy) if covered => {}
        Some(key) => {
            event.prevent_default();
            type_key(store, desk, key);
        }
        None => {}
    }
}

/// Whether a sheet is open over the screen.
pub fn is_on_sheet() -> bool {
    document()
        .query_selector("dialog[open]")
        .ok()
        .flatten()
        .is_some()
}

/// Whether nothing on the page has the focus: then Tab starts with the field that is typed into.
fn is_on_nothing() -> bool {
    document()
        .active_element()
        .is_none_or(|on| on.tag_name() == "BODY")
}

/// Gives the page's own focus to a field, by its name.
pub fn focus_field(name: &str) {
    let found = document()
        .query_selector(&format!("button[data-field={name}]"))
        .ok()
        .flatten();
    if let Some(field) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        // Refused only for an element that can't be seen; the keypad types there all the same.
        let _ = field.focus();
    }
}

/// The key of the keypad that a key of the keyboard stands for, unless what has the focus takes it for itself.
pub fn key_of(event: &KeyboardEvent) -> Option<Key> {
    let on = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    let is_in = |what: &str| {
        on.as_ref()
            .is_some_and(|on| on.matches(what).unwrap_or(false))
    };
    if is_in("input:not([type=radio], [type=checkbox]), textarea, select") {
        return None;
    }
    match event.key().as_str() {
        "." | "," => Some(Key::Type(Press::Point)),
        "Backspace" => Some(Key::Type(Press::RubOut)),
        "Delete" => Some(Key::Type(Press::Clear)),
        "p" | "P" => Some(Key::Pile),
        // On a key or a link, Enter is a touch of it; in a field, or nowhere, it buys. A key held down buys once.
        "Enter" if event.repeat() || is_in("a, button:not([data-field]), label, input") => None,
        "Enter" => Some(Key::Buy),
        key => match key.as_bytes() {
            [digit @ b'0'..=b'9'] => Some(Key::Type(Press::Digit(digit - b'0'))),
            _ => None,
        },
    }
}
