//! Laws of what screens take and show.

mod deciding;
mod forms;
mod sending;
mod typing;
