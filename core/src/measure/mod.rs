//! Weights, lengths, volumes and the sizes of parcels, kept as they were typed and compared by the exact definitions of
//! their units.

mod distance;
mod error;
mod quantity;
mod size;
mod system;
mod ticks;
mod units;
mod volume;

pub use distance::{Distance, DistanceUnit};
pub use error::MeasureError;
pub use quantity::{Quantity, Unit};
pub use size::ParcelSize;
pub use system::System;
pub use ticks::{Direction, whole_steps};
pub use units::{Length, LengthUnit, Weight, WeightUnit};
pub use volume::{Volume, VolumeUnit};
