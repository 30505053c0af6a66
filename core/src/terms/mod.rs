//! The terms of a venue: its schedule of charges, what they come to on one sale, and the least price that reaches a payout.

mod error;
mod invert;
mod schedule;
mod settle;

pub use error::{Refusal, TermsError};
pub use invert::invert;
pub use schedule::{Amount, Base, Charge, MAX_CHARGES, MAX_LABEL, Schedule};
pub use settle::{How, Line, Settlement, payout, settle};
