//! The trade, pure: no input or output, no clock, no chance, no browser types.
//!
//! In reading order; a module uses only those above it:
//! JSON; kinds of record, ids, days and stamps; the natural order of names; numbers as people type them; money; measures; the terms of venues; packing; postage; lots; trips; what a
//! thing is worth; the verdict; the purse; changes and how they fold; the book that they add up to; the file that carries it; and what each screen shows.

#![deny(clippy::float_arithmetic)]

pub mod json;

pub mod kind;

pub mod day;
pub mod id;
pub mod natural;
pub mod stamp;

pub mod number;

#[deny(clippy::arithmetic_side_effects)]
pub mod money;

#[deny(clippy::arithmetic_side_effects)]
pub mod measure;

#[deny(clippy::arithmetic_side_effects)]
pub mod terms;

#[deny(clippy::arithmetic_side_effects)]
pub mod packing;

#[deny(clippy::arithmetic_side_effects)]
pub mod postage;

#[deny(clippy::arithmetic_side_effects)]
pub mod lot;

#[deny(clippy::arithmetic_side_effects)]
pub mod trip;

#[deny(clippy::arithmetic_side_effects)]
pub mod worth;

#[deny(clippy::arithmetic_side_effects)]
pub mod appraise;

#[deny(clippy::arithmetic_side_effects)]
pub mod ledger;

pub mod change;

pub mod book;

pub mod exchange;

pub mod view;

pub mod sample;
