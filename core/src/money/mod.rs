//! Money: whole minor units, exact rates, and the only place that rounds or splits.
//!
//! An amount is a [`Money`], which counts minor units (cents) and doesn't know its currency: a book has one [`Currency`],
//! given where text is read or written. A [`Rate`] is a percentage kept as an exact decimal. Every rounding in the
//! project is a named function of this module, and each sum is rounded once.

// This module is where rounding and decimal sums are allowed; clippy.toml forbids them everywhere else in core.
#![allow(clippy::disallowed_methods)]

mod amount;
mod currency;
mod error;
mod exact;
mod rate;
mod round;
mod split;
mod typed;

pub use amount::Money;
pub use currency::Currency;
pub use error::MoneyError;
pub use exact::product;
pub use rate::Rate;
pub use round::{
    capped, down_to_step, half_away, left_after_reaches, nearest, nearest_step_of, percent_of,
    up_to_step, weighted_mean,
};
pub use split::{split, split_finely};
pub use typed::{parse, plain};
