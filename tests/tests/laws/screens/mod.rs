//! Laws of what screens take and show.

mod forms;
mod typing;
