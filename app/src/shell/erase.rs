//! Taking everything of ours off this device: the book and its second copy, the app's kept files, its worker and its choices.

use super::db::{BLOBS, CHANGES, Db, META, RECORDS};
use super::fault::Fault;
use super::second::Second;
use super::{lock, scope};
use js_sys::Array;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::ServiceWorkerRegistration;

/// Empties the book's storage, whose names begin with ours only. After that nothing can be had back from here; a fault means that the book
/// is still whole.
pub async fn book(db: &Db, copy: Option<&Second>) -> Result<(), Fault> {
    let _alone = lock::book_alone().await;
    // First the copy: a start that finds it beside an empty book would put everything back.
    if let Some(copy) = copy {
        copy.clear().await?;
    }
    let transaction = db.strict(&[RECORDS, CHANGES, BLOBS, META])?;
    for store in [RECORDS, CHANGES, BLOBS, META] {
        transaction.clear(store)?;
    }
    transaction.complete().await
}

/// Lets go of the app's own files, its worker and its choices. What the browser does not let go of is no secret: it holds nothing of the
/// trader's.
pub async fn app() {
    let trouble = |what: &str, error: JsValue| leptos::logging::warn!("{what}: {error:?}");
    if let Err(error) = files().await {
        trouble("the app's files stay", error);
    }
    if let Err(error) = worker().await {
        trouble("the worker stays", error);
    }
    if let Err(error) = choices() {
        trouble("the choices stay", error);
    }
}

async fn files() -> Result<(), JsValue> {
    let caches = window().caches()?;
    let names: Array = JsFuture::from(caches.keys()).await?.unchecked_into();
    let prefix = scope::shared("");
    for name in names.iter().filter_map(|name| name.as_string()) {
        if name.starts_with(&prefix) {
            JsFuture::from(caches.delete(&name)).await?;
        }
    }
    Ok(())
}

async fn worker() -> Result<(), JsValue> {
    let workers = window().navigator().service_worker();
    let found = JsFuture::from(workers.get_registration()).await?;
    let Ok(found) = found.dyn_into::<ServiceWorkerRegistration>() else {
        return Ok(());
    };
    JsFuture::from(found.unregister()?).await.map(drop)
}

fn choices() -> Result<(), JsValue> {
    let prefix = scope::shared("");
    for storage in [window().local_storage()?, window().session_storage()?] {
        let Some(storage) = storage else { continue };
        let mut own = Vec::new();
        for at in 0..storage.length()? {
            own.extend(storage.key(at)?.filter(|key| key.starts_with(&prefix)));
        }
        for key in own {
            storage.remove_item(&key)?;
        }
    }
    Ok(())
}
