//! Handing files to the trader: through the share sheet on phones, else as downloads.

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
    hand_over(&[(name, &blob)], is_finger()).await
}

/// Hands out files, by the share sheet where that is wanted and the browser can, else as downloads.
pub async fn hand_over(files: &[(&str, &Blob)], by_sheet: bool) -> Result<Left, JsValue> {
    if by_sheet && let Some(shared) = share(files)? {
        match JsFuture::from(shared).await {
            Ok(_) => return Ok(Left::Shared),
            Err(error) if Reflect::get(&error, &"name".into())? == "AbortError" => {
                return Ok(Left::Dismissed);
            }
            // Such as a tap that is too long ago.
            Err(error) => leptos::logging::warn!("not shared: {error:?}"),
        }
    }
    for (name, blob) in files {
        download(name, blob)?;
    }
    Ok(Left::Downloaded)
}

/// Whether a finger is the pointer here.
fn is_finger() -> bool {
    let query = window().match_media("(pointer: coarse)").ok().flatten();
    query.is_some_and(|query| query.matches())
}

/// Whether this browser can share text files.
pub fn can_share() -> bool {
    let is_it = || {
        let blob = Blob::new()?;
        let data = shareable(&[("book.txt", &blob)])?;
        Ok::<_, JsValue>(data.is_some())
    };
    is_it().unwrap_or(false)
}

/// Whether the share sheet is the first choice here: by a finger, where there is one.
pub fn likes_sharing() -> bool {
    is_finger() && can_share()
}

/// Files as the share sheet takes them; `None` where there is none, or it does not take them.
fn shareable(files: &[(&str, &Blob)]) -> Result<Option<Object>, JsValue> {
    let navigator = window().navigator();
    let can = Reflect::get(&navigator, &"canShare".into())?.dyn_into::<Function>();
    let Ok(can) = can else { return Ok(None) };
    let make: Function = Reflect::get(&js_sys::global(), &"File".into())?.dyn_into()?;
    let list = Array::new();
    for (name, blob) in files {
        let options = Object::new();
        let kind = blob.type_();
        let kind = kind.split(';').next().filter(|kind| !kind.is_empty());
        Reflect::set(
            &options,
            &"type".into(),
            &kind.unwrap_or("text/plain").into(),
        )?;
        let arguments = Array::of3(&Array::of1(blob), &(*name).into(), &options);
        list.push(&Reflect::construct(&make, &arguments)?);
    }
    let data = Object::new();
    Reflect::set(&data, &"files".into(), &list)?;
    let takes = can.call1(&navigator, &data)?.is_truthy();
    Ok(takes.then_some(data))
}

fn share(files: &[(&str, &Blob)]) -> Result<Option<Promise>, JsValue> {
    let Some(data) = shareable(files)? else {
        return Ok(None);
    };
    let navigator = window().navigator();
    let share: Function = Reflect::get(&navigator, &"share".into())?.dyn_into()?;
    Ok(Some(share.call1(&navigator, &data)?.dyn_into()?))
}

fn download(name: &str, blob: &Blob) -> Result<(), JsValue> {
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
    Ok(())
}
