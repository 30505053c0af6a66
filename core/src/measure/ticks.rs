//! Weights and lengths as whole counts of a unit so small that every quantity that can be typed is a whole number of it. Sums,
//! comparisons and roundings of measures are done on these, exactly.

use super::{Length, LengthUnit, MeasureError, Weight, WeightUnit};

/// Which way a measure is rounded to whole steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Direction {
    /// To the next step: what carriers mostly do.
    #[default]
    Up,
    /// To the nearest step; exactly half goes up.
    Nearest,
}

/// How many whole steps `size / step` is, rounded. A step of nothing counts as one.
pub fn whole_steps(size: u128, step: u128, direction: Direction) -> u128 {
    let step = step.max(1);
    match direction {
        Direction::Up => size.div_ceil(step),
        Direction::Nearest => (size / step) + u128::from(size % step >= step.div_ceil(2)),
    }
}

impl WeightUnit {
    /// One of it, in 10^-9 g.
    pub(super) const fn nanograms(self) -> u64 {
        match self {
            Self::Ounce => 28_349_523_125,
            Self::Pound => 453_592_370_000,
            Self::Gram => 1_000_000_000,
            Self::Kilogram => 1_000_000_000_000,
        }
    }

    /// The small unit of the same system: ounces for pounds, grams for kilograms.
    #[must_use]
    pub const fn small(self) -> Self {
        match self {
            Self::Ounce | Self::Pound => Self::Ounce,
            Self::Gram | Self::Kilogram => Self::Gram,
        }
    }
}

impl WeightUnit {
    /// The large unit of the same system: pounds for ounces, kilograms for grams.
    #[must_use]
    pub const fn heavy(self) -> Self {
        match self {
            Self::Ounce | Self::Pound => Self::Pound,
            Self::Gram | Self::Kilogram => Self::Kilogram,
        }
    }
}

impl LengthUnit {
    /// One of it, in 0.1 mm.
    pub(super) const fn tenths(self) -> u64 {
        match self {
            Self::Inch => 254,
            Self::Millimetre => 10,
            Self::Centimetre => 100,
        }
    }
}

impl Weight {
    /// The weight in 10^-13 g, exactly. At most 10^22.
    pub fn ticks(self) -> u128 {
        u128::from(self.ten_thousandths()) * u128::from(self.unit().nanograms())
    }

    /// So many 10^-13 g in a unit, rounded to `fineness` ten-thousandths of it: 1 for as fine as can be, 1,000 for a tenth.
    ///
    /// # Errors
    /// [`MeasureError::TooLarge`] over a million of the unit.
    pub fn from_ticks(
        ticks: u128,
        unit: WeightUnit,
        fineness: u64,
        direction: Direction,
    ) -> Result<Self, MeasureError> {
        let fineness = u128::from(fineness.max(1));
        let step = fineness * u128::from(unit.nanograms());
        let steps = whole_steps(ticks, step, direction);
        Self::from_ten_thousandths(steps.saturating_mul(fineness), unit)
    }

    /// All of them together, in ounces when the first is in pounds or ounces and in grams otherwise: exact within one system
    /// of units, else rounded up once to a ten-thousandth.
    ///
    /// # Errors
    /// [`MeasureError::Empty`] without any, [`MeasureError::TooLarge`] over a million of the unit.
    pub fn sum(weights: &[Self]) -> Result<Self, MeasureError> {
        let unit = weights.first().ok_or(MeasureError::Empty)?.unit().small();
        let mut ticks = 0_u128;
        for weight in weights {
            ticks = ticks.saturating_add(weight.ticks());
        }
        Self::from_ticks(ticks, unit, 1, Direction::Up)
    }
}

impl Length {
    /// The length in 10^-5 mm, exactly. At most 2.54 × 10^12.
    pub fn ticks(self) -> u64 {
        self.ten_thousandths() * self.unit().tenths()
    }

    /// So many 10^-5 mm in a unit, rounded up to a ten-thousandth of it.
    ///
    /// # Errors
    /// [`MeasureError::TooLarge`] over a million of the unit.
    pub fn from_ticks(ticks: u64, unit: LengthUnit) -> Result<Self, MeasureError> {
        let part = u128::from(unit.tenths());
        let count = whole_steps(u128::from(ticks), part, Direction::Up);
        Self::from_ten_thousandths(count, unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weight(text: &str) -> Weight {
        text.parse().unwrap()
    }

    #[test]
    fn steps_are_counted_up_or_to_the_nearest() {
        let check = |size, step, up, nearest| {
            assert_eq!(whole_steps(size, step, Direction::Up), up);
            assert_eq!(whole_steps(size, step, Direction::Nearest), nearest);
        };
        check(0, 10, 0, 0);
        check(1, 10, 1, 0);
        check(4, 10, 1, 0);
        check(5, 10, 1, 1);
        check(10, 10, 1, 1);
        check(11, 10, 2, 1);
        check(7, 0, 7, 7);
        check(3, 7, 1, 0);
        check(4, 7, 1, 1);
    }

    #[test]
    fn ticks_agree_with_grams_and_millimetres() {
        for text in ["9 oz", "1.2345 lb", "0.0001 g", "999999.9999 kg", "0 oz"] {
            let scaled = weight(text)
                .grams()
                .to_string()
                .parse::<rust_decimal::Decimal>();
            let ticks = i128::try_from(weight(text).ticks()).unwrap();
            let grams = rust_decimal::Decimal::try_from_i128_with_scale(ticks, 13).unwrap();
            assert_eq!(grams, scaled.unwrap(), "{text}");
        }
        let length: Length = "10.5 in".parse().unwrap();
        assert_eq!(length.ticks(), 26_670_000);
    }

    #[test]
    fn weights_add_up_exactly_within_their_system() {
        let check = |weights: &[&str], expected: Result<&str, MeasureError>| {
            let weights: Vec<Weight> = weights.iter().map(|text| weight(text)).collect();
            let found = Weight::sum(&weights).map(|sum| sum.to_string());
            assert_eq!(found, expected.map(str::to_owned), "{weights:?}");
        };
        check(&["1 lb", "9 oz"], Ok("25 oz"));
        check(&["0.0001 lb"], Ok("0.0016 oz"));
        check(&["0.25 kg", "9.5 g"], Ok("259.5 g"));
        // 28.349523125 g more: rounded up once.
        check(&["1 g", "1 oz"], Ok("29.3496 g"));
        check(&["1000000 oz", "0.0001 oz"], Err(MeasureError::TooLarge));
        check(&[], Err(MeasureError::Empty));
    }
}
