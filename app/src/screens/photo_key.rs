//! The key that takes a picture of a thing: the phone's camera opens at once.

use haulwren_core::id::ThingId;
use wasm_bindgen::JsValue;

use super::parts::chosen;
use crate::late;
use crate::ui::el::{El, el, span};
use crate::ui::icons::{Icon, sign};

/// The key.
pub fn photo_key(thing: ThingId, word: &str) -> El {
    let input = el("input")
        .attr("type", "file")
        .attr("accept", "image/*")
        .attr("capture", "environment")
        .attr("data-photo", "")
        .on("change", move |event| {
            let input = event.target().map(JsValue::from).unwrap_or_default();
            let Some(file) = chosen(&input) else { return };
            late::then(move |further, store| (further.add_photo)(store, thing, file.into()));
        });
    el("label")
        .class("press file-key")
        .with(sign(Icon::Camera))
        .with(span("").with(word))
        .with(input)
}
