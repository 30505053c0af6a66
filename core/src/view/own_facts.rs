//! A thing's own weight and size as texts, in the units of the book.

use super::measures::{Units, bare, with_unit};
use crate::measure::{ParcelSize, System, Weight};

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
    let shown = size.map(|size| size.shown(system));
    bare(&shown.unwrap_or_default(), units.length)
}

/// Reads a weight, if there is one; a number alone is in the book's unit.
///
/// # Errors
/// The sentence to show.
pub fn read_weight(text: &str, system: System) -> Result<Option<Weight>, String> {
    let text = with_unit(text, Units::small(system.is_metric()).weight);
    if text.is_empty() {
        return Ok(None);
    }
    let read = text.parse::<Weight>();
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
    let unit = Units::small(system.is_metric()).length;
    let text = if text.ends_with(|sign: char| sign.is_alphabetic()) {
        text
    } else {
        [text.as_str(), " ", unit].concat()
    };
    let read = text.parse::<ParcelSize>();
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
        assert!(read_size("30 x 20", metric).is_err());
        assert!(read_weight("heavy", metric).is_err());
    }
}
