//! Kinds to begin with: clothes and small household goods. Every figure is common practice, no source: typical, weigh yours. Each has
//! round numbers in both systems, so that a book in grams and centimetres is in them everywhere.

use crate::measure::{ParcelSize, System, Weight, WeightUnit};

use super::caution::Caution;
use super::container::{Form, Fragility, Piece};

/// What is shown beside figures that come from here.
pub const TYPICAL: &str = "Typical: weigh yours.";

/// Ounces and inches, then grams and centimetres.
pub(super) type Typical = ((u16, [u16; 3]), (u16, [u16; 3]));

/// A kind to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Starter {
    /// Its name.
    pub name: &'static str,
    typical: Typical,
    soft: bool,
    fragility: Fragility,
    /// The container it mostly goes in.
    pub container: Form,
    /// What to mind.
    pub cautions: &'static [Caution],
}

impl Starter {
    /// A typical one, as it is packed, in round numbers of a system.
    #[must_use]
    pub const fn piece(&self, system: System) -> Piece {
        typical(self.typical, system, self.soft, self.fragility)
    }
}

/// The twelve of them, clothes first.
#[rustfmt::skip] // One line for each.
pub const STARTERS: [Starter; 12] = [
    soft("Shirt or top", ((8, [12, 9, 1]), (250, [30, 25, 3]))),
    soft("Dress", ((12, [13, 10, 2]), (350, [33, 25, 5]))),
    soft("Knitwear", ((18, [13, 10, 3]), (500, [33, 25, 8]))),
    soft("Trousers", ((20, [13, 10, 2]), (550, [33, 25, 5]))),
    soft("Jacket or coat", ((36, [15, 12, 4]), (1_000, [38, 30, 10]))),
    rigid("Shoes", ((44, [13, 8, 5]), (1_250, [33, 20, 12])), Fragility::Sturdy, &[]),
    rigid("Bag", ((24, [13, 10, 5]), (700, [33, 25, 12])), Fragility::Sturdy, &[]),
    rigid("Book", ((18, [9, 6, 1]), (500, [23, 15, 3])), Fragility::Sturdy, &[]),
    rigid("Crockery", ((16, [6, 5, 4]), (450, [15, 12, 10])), Fragility::Fragile, &[Caution::Breakable]),
    rigid("Glassware", ((20, [8, 5, 5]), (550, [20, 12, 12])), Fragility::VeryFragile, &[Caution::Breakable]),
    rigid("Toy or game", ((24, [12, 9, 3]), (700, [30, 23, 8])), Fragility::Sturdy, &[Caution::Recalled]),
    rigid("Small electrical", ((40, [10, 8, 6]), (1_100, [25, 20, 15])), Fragility::Fragile, &[Caution::Restricted]),
];

/// A typical piece in round numbers of a system.
pub(super) const fn typical(
    typical: Typical,
    system: System,
    soft: bool,
    fragility: Fragility,
) -> Piece {
    let (inches, centimetres) = typical;
    let (size, weight) = match system {
        System::OuncesInches => {
            let (ounces, [a, b, c]) = inches;
            let weight = Weight::whole(ounces, WeightUnit::Ounce);
            (ParcelSize::inches(a, b, c), weight)
        }
        System::GramsCentimetres => {
            let (grams, [a, b, c]) = centimetres;
            let weight = Weight::whole(grams, WeightUnit::Gram);
            (ParcelSize::centimetres(a, b, c), weight)
        }
    };
    Piece {
        size,
        weight,
        soft,
        fragility,
    }
}

const fn soft(name: &'static str, typical: Typical) -> Starter {
    Starter {
        name,
        typical,
        soft: true,
        fragility: Fragility::Sturdy,
        container: Form::Mailer,
        cautions: &[],
    }
}

const fn rigid(
    name: &'static str,
    typical: Typical,
    fragility: Fragility,
    cautions: &'static [Caution],
) -> Starter {
    Starter {
        name,
        typical,
        soft: false,
        fragility,
        container: Form::Carton,
        cautions,
    }
}
