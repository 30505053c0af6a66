//! Lots: several things for one price, and what each of them cost.

mod allocate;
mod method;

#[cfg(test)]
mod tests;

pub use allocate::{Piece, Share, Split, allocate};
pub use method::Method;
