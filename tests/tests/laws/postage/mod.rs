//! Laws of postage: quotes, arrangements, pasted tables.

pub mod arranging;
mod cards;
mod hints;
mod pasting;
mod quoting;
