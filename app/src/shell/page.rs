//! Marks on the page's root that the boot script and the tests read.

use super::scope;
use leptos::prelude::{document, window};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Sets `data-<name>` on the root.
pub fn mark(name: &str, value: &str) {
    if let Some(root) = document().document_element() {
        // A data attribute with a plain name is always taken.
        let set = root.set_attribute(&format!("data-{name}"), value);
        debug_assert!(set.is_ok());
    }
}

/// Sets or takes off `data-unsaved`: while it stands, no update replaces the page.
pub fn mark_unsaved(unsaved: bool) {
    if unsaved {
        mark("unsaved", "1");
    } else if let Some(root) = document().document_element() {
        let removed = root.remove_attribute("data-unsaved");
        debug_assert!(removed.is_ok());
    }
}

/// Where the app mounts.
///
/// # Panics
/// When the page is not ours.
pub fn root() -> HtmlElement {
    document()
        .get_element_by_id("app")
        .expect("our page has #app")
        .unchecked_into()
}

/// Takes the static frame away, now that the app stands.
pub fn drop_frame() {
    if let Some(frame) = document().get_element_by_id("frame") {
        frame.remove();
    }
}

/// Notes something for the next load of this tab, or takes the note. Whether it was noted, before or now.
pub fn note_for_next(what: &str, note: bool) -> bool {
    let key = scope::shared(what);
    let storage = window().session_storage().ok().flatten();
    let Some(storage) = storage else {
        return false;
    };
    if note {
        storage.set_item(&key, "1").is_ok()
    } else {
        let noted = storage.get_item(&key).ok().flatten().is_some();
        noted && storage.remove_item(&key).is_ok()
    }
}

/// Loads the page anew. What is typed is kept.
pub fn reload() {
    if let Err(error) = window().location().reload() {
        leptos::logging::warn!("the page does not load anew: {error:?}");
    }
}
