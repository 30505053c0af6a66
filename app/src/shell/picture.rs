//! Pictures: shrunk on this device before they are kept, and shown from the storage. Nothing leaves the device.

use super::db::{BLOBS, Db};
use super::fault::Fault;
use haulwren_core::exchange::sha256;
use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, HtmlCanvasElement, HtmlImageElement, Url,
};

/// The longest side of a kept picture, in its dots: enough to tell things apart and to see a flaw, some 150 kB.
const LONGEST: u32 = 1_280;

/// The media type of kept pictures.
pub const KIND: &str = "image/jpeg";

/// How much of the picture's quality is kept, of 1.
const QUALITY: f64 = 0.8;

/// Why a picture was not kept.
#[derive(Debug)]
pub enum Unkept {
    /// The file is no picture that this browser can read.
    NoPicture,
    /// Nothing is kept on this device.
    NoStorage,
    /// The storage failed.
    Fault(Fault),
}

impl From<Fault> for Unkept {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

/// An address of a blob on this page, given back when it is dropped.
pub struct Address(String);

impl Address {
    fn of(blob: &Blob) -> Result<Self, JsValue> {
        Url::create_object_url_with_blob(blob).map(Self)
    }

    /// The address.
    pub fn text(&self) -> &str {
        &self.0
    }
}

impl Drop for Address {
    fn drop(&mut self) {
        if let Err(error) = Url::revoke_object_url(&self.0) {
            leptos::logging::warn!("a picture's address could not be given back: {error:?}");
        }
    }
}

/// Shrinks a picture and puts it into the storage. Its key there: the SHA-256 of its bytes.
pub async fn keep(db: &Db, file: &Blob) -> Result<String, Unkept> {
    let bytes = shrunk(file).await.map_err(|error| {
        leptos::logging::warn!("no picture: {error:?}");
        Unkept::NoPicture
    })?;
    let key = sha256(&bytes.to_vec());
    let transaction = db.strict(&[BLOBS])?;
    transaction.put_bytes(BLOBS, &key, &bytes, KIND)?;
    transaction.complete().await?;
    Ok(key)
}

/// A kept picture's address; `None` when its bytes are not on this device.
pub async fn show(db: &Db, key: &str) -> Result<Option<Address>, Fault> {
    let Some(bytes) = db.bytes(BLOBS, key).await? else {
        return Ok(None);
    };
    let options = BlobPropertyBag::new();
    options.set_type(KIND);
    let made = Blob::new_with_u8_array_sequence_and_options(&Array::of1(&bytes), &options);
    let address = made.and_then(|blob| Address::of(&blob));
    address.map(Some).map_err(|error| Fault::from_value(&error))
}

/// The picture as a smaller one. The browser turns it the way the camera says.
async fn shrunk(file: &Blob) -> Result<Uint8Array, JsValue> {
    let address = Address::of(file)?;
    let image = HtmlImageElement::new()?;
    image.set_src(address.text());
    let decode: Function = Reflect::get(&image, &"decode".into())?.dyn_into()?;
    let decoded: Promise = decode.call0(&image)?.dyn_into()?;
    JsFuture::from(decoded).await?;
    let (width, height) = smaller(image.natural_width(), image.natural_height());
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width(width);
    canvas.set_height(height);
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    // What shows through a picture with holes would turn black.
    context.set_fill_style_str("#fff");
    context.fill_rect(0.0, 0.0, width.into(), height.into());
    context.draw_image_with_html_image_element_and_dw_and_dh(
        &image,
        0.0,
        0.0,
        width.into(),
        height.into(),
    )?;
    let to_blob: Function = Reflect::get(&canvas, &"toBlob".into())?.dyn_into()?;
    let drawn = Promise::new(&mut |resolve, reject| {
        let asked = to_blob.call3(&canvas, &resolve, &KIND.into(), &QUALITY.into());
        if let Err(error) = asked {
            // A promise that is refused twice stays refused once.
            drop(reject.call1(&JsValue::NULL, &error));
        }
    });
    let blob: Blob = JsFuture::from(drawn).await?.dyn_into()?;
    let bytes = JsFuture::from(blob.array_buffer()).await?;
    Ok(Uint8Array::new(&bytes))
}

/// Width and height with the longest side cut to the most; a smaller picture stays as it is.
fn smaller(width: u32, height: u32) -> (u32, u32) {
    let longest = width.max(height);
    if longest <= LONGEST {
        return (width, height);
    }
    let cut = |side: u32| (side.saturating_mul(LONGEST) / longest).max(1);
    (cut(width), cut(height))
}

#[cfg(test)]
mod tests {
    use super::smaller;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_longest_side_is_cut_and_small_pictures_stay() {
        assert_eq!(smaller(4_000, 3_000), (1_280, 960));
        assert_eq!(smaller(3_000, 4_000), (960, 1_280));
        assert_eq!(smaller(640, 480), (640, 480));
        assert_eq!(smaller(40_000, 1), (1_280, 1));
    }
}
