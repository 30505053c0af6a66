//! Test kit.

#[cfg(feature = "browser")]
pub mod browser;
pub mod server;
