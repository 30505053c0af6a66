//! Measures in forms: a number alone has the form's unit, and another unit is typed behind it.

use crate::measure::{ParcelSize, Unit, WeightUnit};

/// The units that numbers alone have in a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Units {
    /// Of weights.
    pub weight: &'static str,
    /// Of what is so heavy that nobody counts it in the small unit.
    pub heavy: &'static str,
    /// Of lengths.
    pub length: &'static str,
    /// Of volumes.
    pub volume: &'static str,
}

impl Units {
    /// Those that go with a unit of weight.
    pub fn of(unit: WeightUnit) -> Self {
        let is_metric = unit.small() == WeightUnit::Gram;
        let (heavy, length, volume) = if is_metric {
            ("kg", "cm", "cm3")
        } else {
            ("lb", "in", "in3")
        };
        Self {
            weight: unit.symbol(),
            heavy,
            length,
            volume,
        }
    }

    /// Those of grams and centimetres, or of ounces and inches.
    pub fn small(is_metric: bool) -> Self {
        Self::of(if is_metric {
            WeightUnit::Gram
        } else {
            WeightUnit::Ounce
        })
    }
}

/// What was typed, with the unit where none was.
pub(super) fn with_unit(text: &str, unit: &str) -> String {
    let text = text.trim();
    if text.is_empty() || text.contains(char::is_alphabetic) {
        text.to_ascii_lowercase()
    } else {
        [text, " ", unit].concat()
    }
}

/// A measure's text, without the unit where it goes without saying.
pub(super) fn bare(text: String, unit: &str) -> String {
    match text
        .strip_suffix(unit)
        .and_then(|text| text.strip_suffix(' '))
    {
        Some(number) => number.to_owned(),
        None => text,
    }
}

/// The three sides of a size, as texts.
pub(super) fn sides_of(size: ParcelSize, unit: &str) -> [String; 3] {
    size.sides().map(|side| bare(side.to_string(), unit))
}

/// Three sides as one text, for a size to be read from.
pub(super) fn sides_text(sides: &[String; 3], unit: &str) -> String {
    let [one, two, three] = sides;
    [
        with_unit(one, unit),
        with_unit(two, unit),
        with_unit(three, unit),
    ]
    .join(" x ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_alone_has_the_forms_unit() {
        let check = |typed, unit, read| assert_eq!(with_unit(typed, unit), read, "{typed}");
        check("9", "oz", "9 oz");
        check(" 1.5 LB ", "oz", "1.5 lb");
        check("800", "in3", "800 in3");
        check("800 cm3", "in3", "800 cm3");
        check(" ", "oz", "");
        let check = |text: &str, unit, shown| assert_eq!(bare(text.to_owned(), unit), shown);
        check("9 oz", "oz", "9");
        check("1 lb", "oz", "1 lb");
        check("800 cm3", "in3", "800 cm3");
        check("9 kg", "g", "9 kg");
    }
}
