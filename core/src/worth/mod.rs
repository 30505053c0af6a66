//! What a thing is worth: the prices it sells for, and what is set aside before judging.

mod allowances;
mod sells;

pub use allowances::{Allowance, Allowances, SetAside};
pub use sells::{Sells, WorthError};
