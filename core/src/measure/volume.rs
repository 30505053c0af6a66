//! Volumes, as rate cards name them.

use rust_decimal::Decimal;

use super::{Quantity, Unit};

/// A volume, such as `1728 in3`.
pub type Volume = Quantity<VolumeUnit>;

/// A unit of volume.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum VolumeUnit {
    /// Cubic inch: 16.387064 cm³ (NIST SP 811, appendix B.8).
    CubicInch,
    /// Cubic centimetre.
    CubicCentimetre,
}

impl Unit for VolumeUnit {
    const ALL: &'static [Self] = &[Self::CubicInch, Self::CubicCentimetre];
    const KNOWN: &'static str = "in3, cm3";

    fn symbol(self) -> &'static str {
        match self {
            Self::CubicInch => "in3",
            Self::CubicCentimetre => "cm3",
        }
    }

    /// In cubic millimetres.
    fn in_base(self) -> Decimal {
        match self {
            Self::CubicInch => Decimal::from_parts(16_387_064, 0, 0, false, 3),
            Self::CubicCentimetre => Decimal::ONE_THOUSAND,
        }
    }
}

impl Volume {
    /// The volume in (10^-5 mm)³, exactly. At most 1.7 × 10^25.
    pub fn ticks(self) -> u128 {
        // One of the unit in 10^-15 mm³, by the ten thousand parts of one that the count is in.
        let part: u128 = match self.unit() {
            VolumeUnit::CubicInch => 1_638_706_400_000_000,
            VolumeUnit::CubicCentimetre => 100_000_000_000_000,
        };
        u128::from(self.ten_thousandths()) * part
    }
}
