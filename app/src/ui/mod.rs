//! Presentational parts: they know money and measures, but not the book.

pub mod ask;
pub mod cell;
pub mod choice;
pub mod el;
pub mod field;
pub mod heft;
pub mod icons;
mod kept;
pub mod keypad;
pub mod notice;
mod px;
pub mod rail;
pub mod secret;
pub mod sheet;
pub mod spoken;
pub mod strip;
pub mod tabs;
pub mod undo;
pub mod venue_card;
pub mod verdict;
pub mod why;
