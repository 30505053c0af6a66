//! The list by the keyboard: the arrow keys go from row to row, Enter opens what has the focus.

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, KeyboardEvent, Node};

use crate::screens::decide::is_on_sheet;
use crate::ui::el::on_window;

/// Listens while the list stands.
pub fn follow() {
    on_window("keydown", move |event| {
        let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
            return;
        };
        let forward = match event.key().as_str() {
            "ArrowDown" => true,
            "ArrowUp" => false,
            _ => return,
        };
        if is_on_sheet() || event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if step(forward) {
            event.prevent_default();
        }
    });
}

/// Moves the focus to the next or the former row; whether it did. What is typed into keeps its arrow keys.
fn step(forward: bool) -> bool {
    let Ok(rows) = document().query_selector_all("[data-rows] a[href]") else {
        return false;
    };
    let on = document().active_element();
    let typing = on
        .as_ref()
        .is_some_and(|on| ["INPUT", "SELECT", "TEXTAREA"].contains(&on.tag_name().as_str()));
    if typing {
        return false;
    }
    let on: Option<&Node> = on.as_ref().map(AsRef::as_ref);
    let all = (0..rows.length()).filter_map(|at| rows.get(at));
    let here = all.clone().position(|row| row.is_same_node(on));
    let to = match (here, forward) {
        (None, true) => 0,
        (Some(at), true) => at + 1,
        (None | Some(0), false) => return false,
        (Some(at), false) => at - 1,
    };
    let mut all = all;
    let Some(row) = all
        .nth(to)
        .and_then(|row| row.dyn_into::<HtmlElement>().ok())
    else {
        return false;
    };
    row.focus().is_ok()
}
