//! Test kit.

pub mod server;
