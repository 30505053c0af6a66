//! Marks on the page's root that the boot script and the tests read.

use super::scope;
use leptos::prelude::{document, window};
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, Storage};

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

/// Notes something for the next load of this tab. Whether the browser took it.
pub fn note_for_next(what: &str) -> bool {
    notes().is_some_and(|notes| notes.set_item(&scope::shared(what), "1").is_ok())
}

/// Whether the load before noted it.
pub fn is_noted(what: &str) -> bool {
    let noted = notes().and_then(|notes| notes.get_item(&scope::shared(what)).ok()?);
    noted.is_some()
}

/// Forgets it.
pub fn forget_note(what: &str) {
    if let Some(Err(error)) = notes().map(|notes| notes.remove_item(&scope::shared(what))) {
        leptos::logging::warn!("a note stays: {error:?}");
    }
}

fn notes() -> Option<Storage> {
    window().session_storage().ok().flatten()
}

/// Loads the page anew. What is typed is kept.
pub fn reload() {
    if let Err(error) = window().location().reload() {
        leptos::logging::warn!("the page does not load anew: {error:?}");
    }
}
