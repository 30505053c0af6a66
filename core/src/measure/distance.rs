//! Distances driven, by the exact definitions of their units (NIST SP 811, appendix B.8). Apart from lengths, so that nobody is offered
//! a parcel in miles.

use rust_decimal::Decimal;

use super::{Quantity, Unit};
use crate::json::words;

/// A distance, such as `12.4 mi`.
pub type Distance = Quantity<DistanceUnit>;

/// A unit of distance.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DistanceUnit {
    /// International mile: 1609.344 m.
    #[default]
    Mile,
    /// Kilometre: 1000 m.
    Kilometre,
}

words!(DistanceUnit: Mile "mile" Kilometre "kilometre");

impl Unit for DistanceUnit {
    const ALL: &'static [Self] = &[Self::Mile, Self::Kilometre];
    const KNOWN: &'static str = "mi, km";

    fn symbol(self) -> &'static str {
        match self {
            Self::Mile => "mi",
            Self::Kilometre => "km",
        }
    }

    fn in_base(self) -> Decimal {
        match self {
            Self::Mile => Decimal::from_parts(1_609_344, 0, 0, false, 3),
            Self::Kilometre => Decimal::ONE_THOUSAND,
        }
    }
}

impl Distance {
    /// The distance in metres, exactly.
    pub fn metres(self) -> Decimal {
        self.in_base()
    }

    /// A whole number of a unit, as an odometer tells it; none over a million.
    #[must_use]
    pub fn driven(count: u32, unit: DistanceUnit) -> Option<Self> {
        Self::new(Decimal::from(count), unit).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_distance_keeps_its_text_and_measures_exactly() {
        let distance: Distance = serde_json::from_str("\"12.5 mi\"").unwrap();
        assert_eq!(distance.metres(), Decimal::new(20_116_800, 3));
        assert_eq!(serde_json::to_string(&distance).unwrap(), "\"12.5 mi\"");
        assert_eq!(
            Distance::driven(7, DistanceUnit::Kilometre).map(|seven| seven.to_string()),
            Some("7 km".to_owned())
        );
        assert_eq!(Distance::driven(1_000_001, DistanceUnit::Mile), None);
        for bad in ["\"12.5 in\"", "\"12.5\"", "12.5", "null"] {
            assert!(serde_json::from_str::<Distance>(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_unit_of_distance_is_a_word_in_json() {
        let unit: DistanceUnit = serde_json::from_str("\"kilometre\"").unwrap();
        assert_eq!(unit, DistanceUnit::Kilometre);
        assert_eq!(serde_json::to_string(&unit).unwrap(), "\"kilometre\"");
        assert!(serde_json::from_str::<DistanceUnit>("\"league\"").is_err());
    }
}
