//! Kinds to begin with: clothes and small household goods. Every figure is common practice, no source: typical, weigh yours.

use crate::measure::{ParcelSize, Weight, WeightUnit};

use super::caution::Caution;
use super::container::{Form, Fragility, Piece};

/// What is shown beside figures that come from here.
pub const TYPICAL: &str = "Typical: weigh yours.";

/// A kind to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Starter {
    /// Its name.
    pub name: &'static str,
    /// A typical one, as it is packed.
    pub piece: Piece,
    /// The container it mostly goes in.
    pub container: Form,
    /// What to mind.
    pub cautions: &'static [Caution],
}

/// The twelve of them, clothes first.
pub const STARTERS: [Starter; 12] = [
    soft("Shirt or top", 8, [12, 9, 1]),
    soft("Dress", 12, [13, 10, 2]),
    soft("Knitwear", 18, [13, 10, 3]),
    soft("Trousers", 20, [13, 10, 2]),
    soft("Jacket or coat", 36, [15, 12, 4]),
    rigid("Shoes", 44, [13, 8, 5], Fragility::Sturdy, &[]),
    rigid("Bag", 24, [13, 10, 5], Fragility::Sturdy, &[]),
    rigid("Book", 18, [9, 6, 1], Fragility::Sturdy, &[]),
    rigid(
        "Crockery",
        16,
        [6, 5, 4],
        Fragility::Fragile,
        &[Caution::Breakable],
    ),
    rigid(
        "Glassware",
        20,
        [8, 5, 5],
        Fragility::VeryFragile,
        &[Caution::Breakable],
    ),
    rigid(
        "Toy or game",
        24,
        [12, 9, 3],
        Fragility::Sturdy,
        &[Caution::Recalled],
    ),
    rigid(
        "Small electrical",
        40,
        [10, 8, 6],
        Fragility::Fragile,
        &[Caution::Restricted],
    ),
];

const fn piece(ounces: u16, [a, b, c]: [u16; 3], soft: bool, fragility: Fragility) -> Piece {
    Piece {
        size: ParcelSize::inches(a, b, c),
        weight: Weight::whole(ounces, WeightUnit::Ounce),
        soft,
        fragility,
    }
}

const fn soft(name: &'static str, ounces: u16, inches: [u16; 3]) -> Starter {
    Starter {
        name,
        piece: piece(ounces, inches, true, Fragility::Sturdy),
        container: Form::Mailer,
        cautions: &[],
    }
}

const fn rigid(
    name: &'static str,
    ounces: u16,
    inches: [u16; 3],
    fragility: Fragility,
    cautions: &'static [Caution],
) -> Starter {
    Starter {
        name,
        piece: piece(ounces, inches, false, fragility),
        container: Form::Carton,
        cautions,
    }
}
