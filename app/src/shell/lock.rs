//! Web Locks: whatever rebuilds the book holds it alone, and saves and readers of many rows keep it from that.
//!
//! A save with a second copy holds that one's lock, from before it until it is in both; any other shares the book's. Who rebuilds the book
//! takes both, the second copy's first. Nobody waits for that one while holding the book's.

use super::scope;
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// The book's lock, held until dropped.
pub struct Held {
    release: Option<Function>,
}

impl Drop for Held {
    fn drop(&mut self) {
        if let Some(release) = &self.release {
            // Resolving a promise cannot fail.
            let released = release.call0(&JsValue::NULL);
            debug_assert!(released.is_ok());
        }
    }
}

/// Waits for the book alone: no save is under way in any tab, and none begins.
pub async fn book_alone() -> [Held; 2] {
    let second = alone("second").await;
    [second, held("book", "exclusive").await]
}

/// Waits for the book's lock in shared mode.
pub async fn shared() -> Held {
    held("book", "shared").await
}

/// Waits for a lock of ours that nobody else holds meanwhile, in any tab.
pub async fn alone(what: &str) -> Held {
    held(what, "exclusive").await
}

/// Where the browser has no locks (pages that are not served securely), the head check inside
/// each transaction alone keeps saves in order.
async fn held(what: &str, mode: &str) -> Held {
    let locks = Reflect::get(&window().navigator(), &"locks".into()).unwrap_or_default();
    let Some(request) = Reflect::get(&locks, &"request".into())
        .ok()
        .and_then(|request| request.dyn_into::<Function>().ok())
    else {
        return Held { release: None };
    };
    let mut release = None;
    let until = Promise::new(&mut |resolve, _| release = Some(resolve));
    let granted = Promise::new(&mut |resolve, reject| {
        let until = until.clone();
        let hold = Closure::once_into_js(move |_lock: JsValue| {
            let told = resolve.call0(&JsValue::NULL);
            debug_assert!(told.is_ok());
            until
        });
        let options = js_sys::Object::new();
        let asked = Reflect::set(&options, &"mode".into(), &mode.into())
            .and_then(|_| request.call3(&locks, &scope::named(what).into(), &options, &hold));
        if let Err(error) = asked {
            let told = reject.call1(&JsValue::NULL, &error);
            debug_assert!(told.is_ok());
        }
    });
    match JsFuture::from(granted).await {
        Ok(_) => Held { release },
        Err(_) => Held { release: None },
    }
}
