//! Lengths as text, to a tenth of a pixel. The standard library's printing of floating numbers brings its tables along,
//! and a first visit pays for every byte.

use std::fmt;

/// The most signs that a length takes.
pub const ROOM: usize = "-214748364.8".len();

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

    /// As text, in the room that is given: put together by hand, from the last figure to the first. A key draws a hundred lengths, and the library
    /// takes much longer to make one of two numbers and a point.
    pub fn text(self, room: &mut [u8; ROOM]) -> &str {
        let tenths = self.tenths();
        let (mut at, mut rest) = (ROOM, tenths.unsigned_abs());
        loop {
            at -= 1;
            room[at] = b"0123456789"[(rest % 10) as usize];
            rest /= 10;
            if at == ROOM - 1 {
                at -= 1;
                room[at] = b'.';
            } else if rest == 0 {
                break;
            }
        }
        if tenths < 0 {
            at -= 1;
            room[at] = b'-';
        }
        str::from_utf8(&room[at..]).unwrap_or_default()
    }
}

impl fmt::Display for Px {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text(&mut [0; ROOM]))
    }
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
            (9.95, "10.0"),
            (f64::INFINITY, "214748364.7"),
            (f64::NEG_INFINITY, "-214748364.8"),
        ] {
            assert_eq!(Px(length).to_string(), said);
        }
    }
}
