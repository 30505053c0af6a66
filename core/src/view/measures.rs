//! Measures in forms: a number alone has the form's unit, and another unit is typed behind it.

use crate::measure::{LengthUnit, MeasureError, ParcelSize, Quantity, Unit, WeightUnit};
use crate::number::{self, Number};

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

/// A measure as typed, in `unit` where no other stands behind it.
///
/// # Errors
/// What is wrong with it. Of grams, millimetres and the units of volume nobody types thousandths, while many write "1.250" for more than a
/// thousand: that is refused too.
pub(super) fn typed<U: Unit>(text: &str, unit: &str) -> Result<Quantity<U>, MeasureError> {
    let text = with_unit(text, unit);
    let found: Quantity<U> = text.parse()?;
    let end = text.find(char::is_alphabetic).unwrap_or(text.len());
    let is_grouped = number::read(&text[..end]).is_ok_and(Number::could_be_grouped);
    if is_grouped && is_coarse(found.unit().symbol()) {
        return Err(MeasureError::TwoWays);
    }
    Ok(found)
}

/// Does nobody measure thousandths of it?
fn is_coarse(symbol: &str) -> bool {
    matches!(symbol, "g" | "mm" | "in3" | "cm3")
}

/// A measure's text, without the unit where it goes without saying; so that it reads back.
pub(super) fn bare(text: &str, unit: &str) -> String {
    let (number, symbol) = text.split_once(' ').unwrap_or((text, ""));
    let number = match number::read(number) {
        Ok(read) if is_coarse(symbol) && read.could_be_grouped() => {
            let short = number.trim_end_matches('0');
            if short.len() < number.len() {
                short.to_owned()
            } else {
                [number, "0"].concat()
            }
        }
        _ => number.to_owned(),
    };
    if symbol == unit {
        number
    } else {
        [&number, " ", symbol].concat()
    }
}

/// The three sides of a size, as texts.
pub(super) fn sides_of(size: ParcelSize, unit: &str) -> [String; 3] {
    size.sides().map(|side| bare(&side.to_string(), unit))
}

/// A size of three sides as typed, in `unit` where no other stands behind one.
///
/// # Errors
/// What is wrong with the first bad one.
pub(super) fn typed_size(sides: &[String; 3], unit: &str) -> Result<ParcelSize, MeasureError> {
    let [one, two, three] = sides;
    let side = |text: &String| typed::<LengthUnit>(text, unit);
    ParcelSize::new(side(one)?, side(two)?, side(three)?)
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
        let check = |text: &str, unit, shown| assert_eq!(bare(text, unit), shown);
        check("9 oz", "oz", "9");
        check("1 lb", "oz", "1 lb");
        check("800 cm3", "in3", "800 cm3");
        check("9 kg", "g", "9 kg");
        check("1.250 g", "g", "1.25");
        check("1.125 g", "g", "1.1250");
        check("1.125 kg", "g", "1.125 kg");
    }

    #[test]
    fn what_could_be_thousands_is_refused() {
        let check = |text, unit, expected: Result<&str, MeasureError>| {
            let found = typed::<WeightUnit>(text, unit).map(|weight| weight.to_string());
            assert_eq!(found, expected.map(str::to_owned), "{text} {unit}");
        };
        check("1,250", "g", Err(MeasureError::TwoWays));
        check("1.250", "g", Err(MeasureError::TwoWays));
        check("1,250 kg", "g", Err(MeasureError::TwoWays));
        check("1.250 kg", "g", Ok("1.250 kg"));
        check("1.250", "kg", Ok("1.250 kg"));
        check("1 000", "g", Err(MeasureError::Gap));
        check("0,250", "kg", Ok("0.250 kg"));
        let sides = ["1,050", "400", "300"].map(str::to_owned);
        assert_eq!(typed_size(&sides, "mm"), Err(MeasureError::TwoWays));
    }
}
