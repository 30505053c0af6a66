//! The purse: the cash of a trip.

mod purse;

pub use purse::{Moved, Paying, Purse};
