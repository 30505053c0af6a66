//! A thing's own weight and size as texts, in the units of the book.

use super::measures::{Units, bare, typed, typed_size};
use crate::measure::{ParcelSize, System, Weight, WeightUnit};

/// A weight as it is typed; nothing where none is known.
#[must_use]
pub fn weight_text(weight: Option<Weight>, system: System) -> String {
    let units = Units::small(system.is_metric());
    let shown = weight.map(|weight| weight.shown(system));
    bare(&shown.unwrap_or_default(), units.weight)
}

/// A size as it is typed: "30 x 20 x 5".
#[must_use]
pub fn size_text(size: Option<ParcelSize>, system: System) -> String {
    let units = Units::small(system.is_metric());
    let Some(size) = size else {
        return String::new();
    };
    let shown = size.shown(system);
    let end = [" ", units.length].concat();
    match shown.strip_suffix(&end) {
        Some(numbers) if !numbers.contains(|sign: char| sign.is_alphabetic() && sign != 'x') => {
            numbers.to_owned()
        }
        _ => shown,
    }
}

/// Reads a weight, if there is one; a number alone is in the book's unit.
///
/// # Errors
/// The sentence to show.
pub fn read_weight(text: &str, system: System) -> Result<Option<Weight>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let read = typed::<WeightUnit>(text, Units::small(system.is_metric()).weight);
    read.map(Some).map_err(|error| error.to_string())
}

/// Reads a size, if there is one; three numbers alone are in the book's unit.
///
/// # Errors
/// The sentence to show.
pub fn read_size(text: &str, system: System) -> Result<Option<ParcelSize>, String> {
    let text = text.trim().to_ascii_lowercase();
    if text.is_empty() {
        return Ok(None);
    }
    let sides: Vec<String> = text
        .split(['x', '\u{d7}'])
        .map(|side| side.trim().to_owned())
        .collect();
    let Ok(sides) = <[String; 3]>::try_from(sides) else {
        return Err("Type three sides, like 30 x 20 x 5.".to_owned());
    };
    // A unit behind the last is that of all.
    let last = sides[2].trim_start_matches(|sign: char| !sign.is_alphabetic());
    let unit = if last.is_empty() {
        Units::small(system.is_metric()).length
    } else {
        last
    };
    let read = typed_size(&sides, unit);
    read.map(Some).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_measures_are_typed_in_the_books_units_and_read_back() {
        let metric = System::GramsCentimetres;
        let size = read_size("30 x 20 x 5", metric).expect("a size");
        assert_eq!(size_text(size, metric), "30 x 20 x 5");
        assert_eq!(size, "30 x 20 x 5 cm".parse().ok());
        let inches = read_size("12 x 9 x 1 in", metric).expect("a size");
        assert_eq!(inches, "12 x 9 x 1 in".parse().ok());
        let weight = read_weight("250", metric).expect("a weight");
        assert_eq!(weight, "250 g".parse().ok());
        assert_eq!(weight_text(weight, metric), "250");
        assert_eq!(read_weight(" ", metric), Ok(None));
        assert_eq!(size_text(inches, System::OuncesInches), "12 x 9 x 1");
        assert!(read_size("30 x 20", metric).is_err());
        assert!(read_weight("heavy", metric).is_err());
    }
}
