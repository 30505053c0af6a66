//! Weights and lengths, kept as they were typed and compared by the exact definitions of their units.

mod error;
mod quantity;
mod units;

pub use error::MeasureError;
pub use quantity::{Quantity, Unit};
pub use units::{Length, LengthUnit, Weight, WeightUnit};
