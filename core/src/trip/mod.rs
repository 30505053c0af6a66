//! Trips: what is particular to a place that is visited on one.

mod manner;

pub use manner::Manner;
