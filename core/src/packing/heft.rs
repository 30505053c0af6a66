//! Chips for things of no known kind: size and heft, told at a glance. What rests on them is rough.

use serde::{Deserialize, Serialize};

use crate::measure::System;

use super::container::{Fragility, Piece};
use super::kinds::typical;

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

    /// The typical thing in round numbers of a system: rough, always. Common practice, no source.
    #[must_use]
    pub const fn typical(self, system: System) -> Piece {
        let (measures, soft) = match self {
            Self::FlatSoft => (((7, [12, 9, 1]), (200, [30, 23, 3])), true),
            Self::FoldedSoft => (((18, [13, 10, 3]), (500, [33, 25, 8])), true),
            Self::ShoeboxLight => (((20, [13, 8, 5]), (550, [33, 20, 12])), false),
            Self::ShoeboxHeavy => (((56, [13, 8, 5]), (1_600, [33, 20, 12])), false),
            Self::BigLight => (((48, [18, 14, 10]), (1_400, [45, 35, 25])), false),
            Self::BigHeavy => (((160, [18, 14, 10]), (4_500, [45, 35, 25])), false),
        };
        typical(measures, system, soft, Fragility::Sturdy)
    }
}
