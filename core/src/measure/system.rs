//! The units that a trader thinks in: ounces and inches, or grams and centimetres.

use crate::json::words;

use super::{Direction, Length, LengthUnit, ParcelSize, Weight, WeightUnit, whole_steps};

/// A system of units. In files by its name.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// Ounces, pounds and inches.
    #[default]
    OuncesInches,
    /// Grams, kilograms and centimetres.
    GramsCentimetres,
}

words!(System: OuncesInches "ounces_inches" GramsCentimetres "grams_centimetres");

impl System {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::OuncesInches, Self::GramsCentimetres];

    /// The small unit of weight.
    #[must_use]
    pub const fn weight(self) -> WeightUnit {
        match self {
            Self::OuncesInches => WeightUnit::Ounce,
            Self::GramsCentimetres => WeightUnit::Gram,
        }
    }

    /// The unit of length.
    #[must_use]
    pub const fn length(self) -> LengthUnit {
        match self {
            Self::OuncesInches => LengthUnit::Inch,
            Self::GramsCentimetres => LengthUnit::Centimetre,
        }
    }

    /// Whether it is the metric one.
    #[must_use]
    pub const fn is_metric(self) -> bool {
        matches!(self, Self::GramsCentimetres)
    }
}

/// How fine a measure in another system is shown, in ten-thousandths: whole grams and centimetres, tenths of an ounce and of an inch.
const fn fineness(system: System) -> u64 {
    match system {
        System::OuncesInches => 1_000,
        System::GramsCentimetres => 10_000,
    }
}

impl Weight {
    /// The weight as a trader of a system reads it: as it was typed where that is in the system's units, else to the nearest tenth of an
    /// ounce or whole gram. For showing only: sums take what was typed.
    #[must_use]
    pub fn shown(self, system: System) -> String {
        if self.unit().small() == system.weight() {
            return self.to_string();
        }
        let shown = Self::from_ticks(
            self.ticks(),
            system.weight(),
            fineness(system),
            Direction::Nearest,
        );
        // Over a million of the unit it stays as typed.
        shown.unwrap_or(self).to_string()
    }
}

impl Weight {
    /// A weight that was worked out, in a system's units: as it stands where that is short, else to the nearest whole gram or tenth of an
    /// ounce, whatever it was added up from. For showing only.
    #[must_use]
    pub fn near(self, system: System) -> String {
        const SHORT: usize = 2;
        let text = self.to_string();
        let part = text.split_once('.').map_or("", |(_, part)| part);
        let decimals = part.bytes().take_while(u8::is_ascii_digit).count();
        if self.unit().small() == system.weight() && decimals <= SHORT {
            return text;
        }
        let shown = Self::from_ticks(
            self.ticks(),
            system.weight(),
            fineness(system),
            Direction::Nearest,
        );
        shown.unwrap_or(self).to_string()
    }
}

impl ParcelSize {
    /// The size as a trader of a system reads it: as it was typed where that is in the system's units, else to the nearest tenth of an inch
    /// or whole centimetre. For showing only.
    #[must_use]
    pub fn shown(self, system: System) -> String {
        let is_own = |side: &Length| (side.unit() != LengthUnit::Inch) == system.is_metric();
        let sides = self.sides();
        if sides.iter().all(is_own) {
            return self.to_string();
        }
        let unit = system.length();
        let converted = |side: Length| {
            let fine = u128::from(fineness(system));
            // A unit in the 10^-5 mm of a side's ticks.
            let step = fine * u128::from(unit.tenths());
            let steps = whole_steps(u128::from(side.ticks()), step, Direction::Nearest);
            // A side is never shown as nothing.
            Length::from_ten_thousandths(steps.max(1) * fine, unit).unwrap_or(side)
        };
        let [one, two, three] = sides.map(converted);
        Self::new(one, two, three).unwrap_or(self).to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::System::{GramsCentimetres, OuncesInches};
    use super::*;

    #[test]
    fn a_measure_is_shown_in_the_traders_units() {
        let check = |typed: &str, system, shown: &str| {
            let weight: Weight = typed.parse().expect("a weight");
            assert_eq!(weight.shown(system), shown, "{typed}");
        };
        check("8 oz", OuncesInches, "8 oz");
        check("2 lb", OuncesInches, "2 lb");
        // 8 × 28.349523125 = 226.796185
        check("8 oz", GramsCentimetres, "227 g");
        check("1 lb", GramsCentimetres, "454 g");
        check("0.25 kg", GramsCentimetres, "0.25 kg");
        // 250 / 28.349523125 = 8.818…
        check("0.25 kg", OuncesInches, "8.8 oz");
        let sum = |of: [&str; 2]| {
            let of = of.map(|text| text.parse::<Weight>().expect("a weight"));
            Weight::sum(&of).expect("a sum")
        };
        // 250 g and 0.5 oz: 264.17 g; 8.7055 oz is what nobody says.
        assert_eq!(sum(["0.5 oz", "250 g"]).near(GramsCentimetres), "264 g");
        assert_eq!(sum(["0.5 oz", "250 g"]).near(OuncesInches), "9.3 oz");
        assert_eq!(sum(["5 lb", "0.25 lb"]).near(OuncesInches), "84 oz");
        let check = |typed: &str, system, shown: &str| {
            let size: ParcelSize = typed.parse().expect("a size");
            assert_eq!(size.shown(system), shown, "{typed}");
        };
        check("12 x 9 x 1 in", OuncesInches, "12 x 9 x 1 in");
        // 30.48, 22.86 and 2.54 cm
        check("12 x 9 x 1 in", GramsCentimetres, "30 x 23 x 3 cm");
        check("30 x 20 x 5 cm", GramsCentimetres, "30 x 20 x 5 cm");
        check("30 x 20 x 5 cm", OuncesInches, "11.8 x 7.9 x 2 in");
    }
}
