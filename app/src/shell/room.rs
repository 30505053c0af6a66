//! How much this device keeps of ours, and how safe it is there.

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// What the browser says of the storage. Unknown where it does not say.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// Bytes that we use.
    pub used: Option<f64>,
    /// Bytes that we may use.
    pub all: Option<f64>,
    /// Whether it is kept when room gets short.
    pub persists: Option<bool>,
}

impl Room {
    /// Asks the browser.
    pub async fn now() -> Self {
        let estimate = asked("estimate").await.unwrap_or_default();
        let bytes = |what: &str| Reflect::get(&estimate, &what.into()).ok()?.as_f64();
        Self {
            used: bytes("usage"),
            all: bytes("quota"),
            persists: asked("persisted")
                .await
                .ok()
                .and_then(|said| said.as_bool()),
        }
    }
}

async fn asked(what: &str) -> Result<JsValue, JsValue> {
    let storage = Reflect::get(&window().navigator(), &"storage".into())?;
    let ask: Function = Reflect::get(&storage, &what.into())?.dyn_into()?;
    let asked: Promise = ask.call0(&storage)?.dyn_into()?;
    JsFuture::from(asked).await
}
