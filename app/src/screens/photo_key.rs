//! The key that takes a picture of a thing: the phone's camera opens at once.

use haulwren_core::id::ThingId;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;

use super::parts::chosen;
use crate::late;
use crate::notice::Notice;
use crate::store::use_store;
use crate::ui::el::{El, el, span};
use crate::ui::icons::{Icon, sign};

/// The key.
pub fn photo_key(thing: ThingId, word: &str) -> El {
    let store = use_store();
    let input = el("input")
        .attr("type", "file")
        .attr("accept", "image/*")
        .attr("capture", "environment")
        .attr("data-photo", "")
        .on("change", move |event| {
            let input = event.target().map(JsValue::from).unwrap_or_default();
            let Some(file) = chosen(&input) else { return };
            spawn_local(async move {
                match late::fetched().await {
                    Some(further) => (further.add_photo)(store, thing, file.into()),
                    None => store.notice.set(Some(Notice::not_fetched())),
                }
            });
        });
    el("label")
        .class("press file-key")
        .with(sign(Icon::Camera))
        .with(span("").with(word))
        .with(input)
}
