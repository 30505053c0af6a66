//! Containers, and the things that go into them.

use serde::{Deserialize, Serialize};

use crate::measure::{ParcelSize, Weight};
use crate::money::Money;

/// A mailer or a carton of the trader's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Container {
    /// What the trader calls it.
    pub name: String,
    /// Its own weight.
    pub tare: Weight,
    /// What one costs.
    pub cost: Money,
    /// Its inside: of a carton the three sides, of a mailer the two sides as it lies flat and how thick it may become. Walls
    /// are not counted: as a parcel it is taken to be as large as its inside.
    pub inside: ParcelSize,
    /// Which of the two it is.
    pub form: Form,
}

/// What a container is like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Form {
    /// A mailer: soft, as thick as what is in it.
    Mailer,
    /// A carton: it keeps its shape.
    Carton,
}

/// How easily a thing breaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fragility {
    /// It doesn't: no padding.
    #[default]
    Sturdy,
    /// It may: wrapped, about an inch all around.
    Fragile,
    /// It will: about two inches all around.
    VeryFragile,
}

/// One thing to pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Its size as it is packed, unpadded; of a soft thing as it lies loosely folded, its shortest side its thickness.
    pub size: ParcelSize,
    /// Its weight.
    pub weight: Weight,
    /// Whether it folds and presses.
    pub soft: bool,
    /// How easily it breaks.
    pub fragility: Fragility,
}

impl Fragility {
    /// Padding on each side, in 10^-5 mm: nothing, 25 mm or 50 mm (common practice, no source).
    pub(super) const fn padding(self) -> u64 {
        match self {
            Self::Sturdy => 0,
            Self::Fragile => 2_500_000,
            Self::VeryFragile => 5_000_000,
        }
    }
}
