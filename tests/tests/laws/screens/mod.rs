//! Laws of what screens take and show.

mod cards;
mod deciding;
mod forms;
mod sending;
mod typing;
