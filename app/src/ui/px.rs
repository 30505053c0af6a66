//! Lengths as text, to a tenth of a pixel. The standard library's printing of floating numbers brings its tables along,
//! and a first visit pays for every byte.

use std::fmt;

/// A length in CSS pixels, or a ratio, shown with one decimal.
#[derive(Clone, Copy)]
pub struct Px(pub f64);

impl Px {
    /// In tenths, as it is shown.
    pub fn tenths(self) -> i32 {
        // Lengths on a page stay far within the range.
        #[allow(clippy::cast_possible_truncation)]
        let tenths = (self.0 * 10.0).round() as i32;
        tenths
    }
}

impl fmt::Display for Px {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = self.tenths();
        let minus = if tenths < 0 { "-" } else { "" };
        let tenths = tenths.unsigned_abs();
        write!(f, "{minus}{}.{}", tenths / 10, tenths % 10)
    }
}

/// A length for a style property.
pub fn css(length: f64) -> String {
    format!("{}px", Px(length))
}

#[cfg(test)]
mod tests {
    use super::Px;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn lengths_are_said_to_a_tenth() {
        for (length, said) in [
            (0.0, "0.0"),
            (12.34, "12.3"),
            (12.35, "12.4"),
            (-0.26, "-0.3"),
            (-0.04, "0.0"),
            (366.0, "366.0"),
        ] {
            assert_eq!(Px(length).to_string(), said);
        }
    }
}
