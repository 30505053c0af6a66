//! Typing on the pile: the keypad's keys, and the keyboard's. Enter pays for all, or ends the pricing of one thing.

use haulwren_core::book::State;
use leptos::prelude::untrack;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

use super::Desk;
use crate::screens::decide::{is_on_sheet, key_of};
use crate::store::Store;
use crate::ui::el::on_window;
use crate::ui::keypad::Key;

/// Does what a key stands for, or says why it was not taken.
pub fn type_key(store: Store, desk: Desk, key: Key) {
    desk.refused.set(None);
    let at = untrack(|| store.pile(|pile| pile.at));
    let press = match key {
        Key::Type(press) => press,
        Key::PutBack => {
            return store.edit_pile(|pile| match at {
                Some(at) => pile.take_back(at),
                None => pile.put_all_back(),
            });
        }
        Key::Buy if at.is_none() => return store.pay_for_pile(),
        // Only Decide has this key.
        Key::Pile => return,
        Key::Buy | Key::Next => return store.edit_pile(|pile| pile.go(None)),
    };
    let Some(currency) = untrack(|| store.read_setup(State::currency)) else {
        return;
    };
    let taken = store.edit_pile(|pile| pile.press(press, currency));
    desk.refused.set(taken.err().map(|error| error.to_string()));
}

/// Listens to the keyboard while the screen stands.
pub fn follow(store: Store, desk: Desk) {
    on_window("keydown", move |event| {
        if let Some(event) = event.dyn_ref::<KeyboardEvent>() {
            heard(store, desk, event);
        }
    });
}

fn heard(store: Store, desk: Desk, event: &KeyboardEvent) {
    let is_empty = untrack(|| store.pile(|pile| pile.things.is_empty()));
    if is_empty || is_on_sheet() || event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    if let Some(key) = key_of(event) {
        event.prevent_default();
        type_key(store, desk, key);
    }
}
