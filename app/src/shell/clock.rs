//! The clock and chance of this device. The core has neither.

use haulwren_core::stamp::At;
use js_sys::Date;
use leptos::prelude::window;

/// Now, as this device shows it.
pub fn now() -> At {
    let now = Date::new_0();
    // A clock before 1970 counts as 1970. The casts are exact: ms fit 2^53, and offsets are whole minutes within a day.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    At(
        now.get_time().max(0.0) as u64,
        -now.get_timezone_offset() as i16,
    )
}

/// Waits a while.
pub async fn pause(ms: u32) {
    let passed = js_sys::Promise::new(&mut |resolve, _| {
        gloo::timers::callback::Timeout::new(ms, move || {
            let told = resolve.call0(&wasm_bindgen::JsValue::NULL);
            debug_assert!(told.is_ok());
        })
        .forget();
    });
    // It never rejects.
    let passed = wasm_bindgen_futures::JsFuture::from(passed).await;
    debug_assert!(passed.is_ok());
}

/// Lets go of the page for a moment, within the same task: who waits for what was just marked goes first.
pub async fn turn() {
    let now = js_sys::Promise::resolve(&wasm_bindgen::JsValue::UNDEFINED);
    // It never rejects.
    let turned = wasm_bindgen_futures::JsFuture::from(now).await;
    debug_assert!(turned.is_ok());
}

/// `N` fresh bytes of chance.
///
/// # Panics
/// In a browser without `crypto`, which cannot run this app at all.
pub fn chance<const N: usize>() -> [u8; N] {
    let mut bytes = [0; N];
    window()
        .crypto()
        .and_then(|crypto| crypto.get_random_values_with_u8_array(&mut bytes))
        .expect("the browser has crypto");
    bytes
}
