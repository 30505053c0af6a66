//! Chips for things of no known kind: size and heft, told at a glance. What rests on them is rough.

use serde::{Deserialize, Serialize};

use crate::measure::{ParcelSize, Weight, WeightUnit};

use super::container::{Fragility, Piece};

/// About how large and how heavy.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Heft {
    /// A T-shirt, a scarf.
    FlatSoft,
    /// A jumper, a pair of trousers.
    FoldedSoft,
    /// As large as a shoebox, and light.
    ShoeboxLight,
    /// As large as a shoebox, and heavy.
    ShoeboxHeavy,
    /// As large as a moving box, and light.
    BigLight,
    /// As large as a moving box, and heavy.
    BigHeavy,
}

impl Heft {
    /// Every chip, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::FlatSoft,
        Self::FoldedSoft,
        Self::ShoeboxLight,
        Self::ShoeboxHeavy,
        Self::BigLight,
        Self::BigHeavy,
    ];

    /// What the chip says.
    pub const fn label(self) -> &'static str {
        match self {
            Self::FlatSoft => "Flat and soft",
            Self::FoldedSoft => "Folded, soft",
            Self::ShoeboxLight => "Shoebox, light",
            Self::ShoeboxHeavy => "Shoebox, heavy",
            Self::BigLight => "Big, light",
            Self::BigHeavy => "Big, heavy",
        }
    }

    /// The typical thing: rough, always. Common practice, no source.
    pub const fn typical(self) -> Piece {
        let (ounces, size, soft) = match self {
            Self::FlatSoft => (7, ParcelSize::inches(12, 9, 1), true),
            Self::FoldedSoft => (18, ParcelSize::inches(13, 10, 3), true),
            Self::ShoeboxLight => (20, ParcelSize::inches(13, 8, 5), false),
            Self::ShoeboxHeavy => (56, ParcelSize::inches(13, 8, 5), false),
            Self::BigLight => (48, ParcelSize::inches(18, 14, 10), false),
            Self::BigHeavy => (160, ParcelSize::inches(18, 14, 10), false),
        };
        Piece {
            size,
            weight: Weight::whole(ounces, WeightUnit::Ounce),
            soft,
            fragility: Fragility::Sturdy,
        }
    }
}
