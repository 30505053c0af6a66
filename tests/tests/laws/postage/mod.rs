//! Laws of postage: quotes, arrangements, pasted tables.

pub mod arranging;
pub mod cards;
mod hints;
mod pasting;
pub mod quoting;
