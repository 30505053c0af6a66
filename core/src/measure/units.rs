//! The units of weight and of length, by their exact definitions (NIST SP 811, appendix B.8).

use rust_decimal::Decimal;

use super::{Quantity, Unit};

/// A weight, such as `9 oz`.
pub type Weight = Quantity<WeightUnit>;
/// A length, such as `10.5 in`.
pub type Length = Quantity<LengthUnit>;

/// A unit of weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WeightUnit {
    /// Ounce, avoirdupois: 28.349523125 g, a sixteenth of a pound.
    Ounce,
    /// Pound, avoirdupois: 453.59237 g.
    Pound,
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
}

/// A unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// Inch: 25.4 mm.
    Inch,
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
}

impl Unit for WeightUnit {
    const ALL: &'static [Self] = &[Self::Ounce, Self::Pound, Self::Gram, Self::Kilogram];
    const KNOWN: &'static str = "oz, lb, g, kg";

    fn symbol(self) -> &'static str {
        match self {
            Self::Ounce => "oz",
            Self::Pound => "lb",
            Self::Gram => "g",
            Self::Kilogram => "kg",
        }
    }

    fn in_base(self) -> Decimal {
        match self {
            // 28,349,523,125 does not fit the low word of 32 bits: 6 × 2^32 + 2,579,719,349.
            Self::Ounce => Decimal::from_parts(2_579_719_349, 6, 0, false, 9),
            Self::Pound => Decimal::from_parts(45_359_237, 0, 0, false, 5),
            Self::Gram => Decimal::ONE,
            Self::Kilogram => Decimal::ONE_THOUSAND,
        }
    }
}

impl Unit for LengthUnit {
    const ALL: &'static [Self] = &[Self::Inch, Self::Centimetre, Self::Millimetre];
    const KNOWN: &'static str = "in, cm, mm";

    fn symbol(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
        }
    }

    fn in_base(self) -> Decimal {
        match self {
            Self::Inch => Decimal::from_parts(254, 0, 0, false, 1),
            Self::Millimetre => Decimal::ONE,
            Self::Centimetre => Decimal::TEN,
        }
    }
}

impl Weight {
    /// The weight in grams, exactly.
    pub fn grams(self) -> Decimal {
        self.in_base()
    }
}

impl Length {
    /// The length in millimetres, exactly.
    pub fn millimetres(self) -> Decimal {
        self.in_base()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::MeasureError;

    fn check(text: &str, expected: Result<(&str, &str), MeasureError>) {
        let found = text
            .parse::<Weight>()
            .map(|weight| (weight.to_string(), weight.grams().to_string()));
        assert_eq!(
            found,
            expected.map(|(shown, grams)| (shown.to_owned(), grams.to_owned())),
            "{text:?}"
        );
    }

    #[test]
    fn a_weight_keeps_its_text_and_measures_exactly() {
        let unknown = || {
            Err(MeasureError::UnknownUnit {
                known: "oz, lb, g, kg",
            })
        };
        check("9 oz", Ok(("9 oz", "255.145708125")));
        check("9oz", Ok(("9 oz", "255.145708125")));
        check(" 9.50 oz ", Ok(("9.50 oz", "269.3204696875")));
        check("0,25 kg", Ok(("0.25 kg", "250")));
        check("1 lb", Ok(("1 lb", "453.59237")));
        check(
            "999999.9999 oz",
            Ok(("999999.9999 oz", "28349523.1221650476875")),
        );
        check("9", unknown());
        check("9 stone", unknown());
        check("9 OZ", unknown());
        check("", Err(MeasureError::Empty));
        check("oz", Err(MeasureError::NotDigits));
        check("1.2.3 oz", Err(MeasureError::ManyPoints));
        check("1,250 g", Err(MeasureError::TwoWays));
        check("1 000 g", Err(MeasureError::Gap));
        check("1.250 kg", Ok(("1.250 kg", "1250")));
        check("$9 oz", Err(MeasureError::NotDigits));
        check("-9 oz", Err(MeasureError::Negative));
        check("0.00001 oz", Err(MeasureError::TooFine));
        check("1000001 oz", Err(MeasureError::TooLarge));
        check(
            &format!("{} oz", "9".repeat(60)),
            Err(MeasureError::TooLarge),
        );
        check(
            &format!("1.{} oz", "9".repeat(60)),
            Err(MeasureError::TooFine),
        );
    }

    #[test]
    fn a_length_is_a_text_in_json() {
        let length: Length = serde_json::from_str("\"10.5 in\"").unwrap();
        assert_eq!(length.millimetres(), Decimal::new(2667, 1));
        assert_eq!(serde_json::to_string(&length).unwrap(), "\"10.5 in\"");
        for bad in ["\"10.5 oz\"", "\"10.5\"", "10.5", "null"] {
            assert!(serde_json::from_str::<Length>(bad).is_err(), "{bad}");
        }
    }
}
