//! Handing a file to the trader: through the share sheet on phones, else as a download.

use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// How a file left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Left {
    /// Handed to the share sheet.
    Shared,
    /// Put among the downloads.
    Downloaded,
    /// The trader closed the share sheet.
    Dismissed,
}

/// Hands out a file of text; `kind` is its media type.
pub async fn hand_out(name: &str, text: &str, kind: &str) -> Result<Left, JsValue> {
    let parts = Array::of1(&text.into());
    let options = BlobPropertyBag::new();
    options.set_type(&format!("{kind};charset=utf-8"));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &options)?;
    if let Some(shared) = share(name, &blob, kind)? {
        return match JsFuture::from(shared).await {
            Ok(_) => Ok(Left::Shared),
            Err(error) if Reflect::get(&error, &"name".into())? == "AbortError" => {
                Ok(Left::Dismissed)
            }
            Err(_) => download(name, &blob),
        };
    }
    download(name, &blob)
}

/// Starts the share sheet where a finger is the pointer and the browser can share files.
fn share(name: &str, blob: &Blob, kind: &str) -> Result<Option<Promise>, JsValue> {
    let finger = window()
        .match_media("(pointer: coarse)")?
        .is_some_and(|query| query.matches());
    let navigator = window().navigator();
    let can = Reflect::get(&navigator, &"canShare".into())?.dyn_into::<Function>();
    let (true, Ok(can)) = (finger, can) else {
        return Ok(None);
    };
    let file: Function = Reflect::get(&js_sys::global(), &"File".into())?.dyn_into()?;
    let options = Object::new();
    Reflect::set(&options, &"type".into(), &kind.into())?;
    let file = Reflect::construct(
        &file,
        &Array::of3(&Array::of1(blob), &name.into(), &options),
    )?;
    let data = Object::new();
    Reflect::set(&data, &"files".into(), &Array::of1(&file))?;
    if !can.call1(&navigator, &data)?.is_truthy() {
        return Ok(None);
    }
    let share: Function = Reflect::get(&navigator, &"share".into())?.dyn_into()?;
    Ok(Some(share.call1(&navigator, &data)?.dyn_into()?))
}

fn download(name: &str, blob: &Blob) -> Result<Left, JsValue> {
    let url = Url::create_object_url_with_blob(blob)?;
    let anchor: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    // The browser has taken hold of the blob once the click was handled; a minute is plenty for slow disks.
    gloo::timers::callback::Timeout::new(60_000, move || {
        if let Err(error) = Url::revoke_object_url(&url) {
            leptos::logging::warn!("a file's address could not be given back: {error:?}");
        }
    })
    .forget();
    Ok(Left::Downloaded)
}
