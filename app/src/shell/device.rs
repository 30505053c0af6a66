//! What this device is, and asking it to keep what we store.

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Asks the browser not to clear our storage when room gets short. Its answer changes nothing here: it may grant it later by itself.
pub fn ask_to_persist() {
    spawn_local(async {
        match persist().await {
            Ok(granted) => leptos::logging::log!("storage persists: {}", granted.is_truthy()),
            Err(error) => {
                leptos::logging::warn!("storage may be cleared by the browser: {error:?}");
            }
        }
    });
}

async fn persist() -> Result<JsValue, JsValue> {
    let storage = Reflect::get(&window().navigator(), &"storage".into())?;
    let persist: Function = Reflect::get(&storage, &"persist".into())?.dyn_into()?;
    let asked: Promise = persist.call0(&storage)?.dyn_into()?;
    JsFuture::from(asked).await
}

/// What to call this device until the trader says otherwise.
pub fn likely_name() -> &'static str {
    let finger = window()
        .match_media("(pointer: coarse)")
        .ok()
        .flatten()
        .is_some_and(|query| query.matches());
    if finger { "Phone" } else { "Computer" }
}

/// Whether this is a page that the device would keep better as an app of its own, on its home screen. Only the browsers that tell pages and
/// such apps apart by this word clear the data of pages that were not looked at for a while.
pub fn is_mere_page() -> bool {
    let said = Reflect::get(&window().navigator(), &"standalone".into());
    said.is_ok_and(|said| said == JsValue::FALSE)
}
