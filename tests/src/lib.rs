//! Test kit.

#[cfg(feature = "browser")]
pub mod browser;
#[cfg(not(target_arch = "wasm32"))]
pub mod fonts;
#[cfg(not(target_arch = "wasm32"))]
pub mod server;
