//! House rules, as tests over the files that are kept under version control. Each says why it holds.

#![cfg(not(target_arch = "wasm32"))]

mod addresses;
mod code;
mod layers;
mod manifests;
mod paths;
mod sizes;
mod styles;
mod tree;
