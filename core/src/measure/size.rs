//! The size of a parcel or of a thing: three sides, in any order.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::{Length, LengthUnit, MeasureError, Volume};

/// Three sides, each over nothing and at most ten metres. In files: the text `"12 x 9 x 2 in"`, or with a unit after each
/// side. Two sizes are equal when they were typed alike; the order of the sides never changes an answer.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct ParcelSize {
    /// The first side as typed.
    length: Length,
    /// The second.
    width: Length,
    /// The third.
    height: Length,
}

/// Ten metres, in 10^-5 mm.
const MOST: u64 = 1_000_000_000;

impl ParcelSize {
    /// A size of three sides, in any order.
    ///
    /// # Errors
    /// [`MeasureError::NoSide`] or [`MeasureError::TooLarge`].
    pub fn new(length: Length, width: Length, height: Length) -> Result<Self, MeasureError> {
        for side in [length, width, height] {
            match side.ticks() {
                0 => return Err(MeasureError::NoSide),
                1..=MOST => {}
                _ => return Err(MeasureError::TooLarge),
            }
        }
        Ok(Self {
            length,
            width,
            height,
        })
    }

    /// A size in whole inches known to be good.
    ///
    /// # Panics
    /// On a side of nothing or over ten metres. For literals only; data goes through [`ParcelSize::new`].
    pub const fn inches(length: u16, width: u16, height: u16) -> Self {
        assert!(length > 0 && width > 0 && height > 0, "a side of nothing");
        assert!(
            length < 394 && width < 394 && height < 394,
            "a side over ten metres"
        );
        Self {
            length: Length::whole(length, LengthUnit::Inch),
            width: Length::whole(width, LengthUnit::Inch),
            height: Length::whole(height, LengthUnit::Inch),
        }
    }

    /// The same of whole centimetres.
    ///
    /// # Panics
    /// On a side of nothing, or over ten metres.
    pub const fn centimetres(length: u16, width: u16, height: u16) -> Self {
        assert!(length > 0 && width > 0 && height > 0, "a side of nothing");
        assert!(
            length <= 1000 && width <= 1000 && height <= 1000,
            "a side over ten metres"
        );
        Self {
            length: Length::whole(length, LengthUnit::Centimetre),
            width: Length::whole(width, LengthUnit::Centimetre),
            height: Length::whole(height, LengthUnit::Centimetre),
        }
    }

    /// The sides in the order typed.
    pub const fn sides(self) -> [Length; 3] {
        [self.length, self.width, self.height]
    }

    /// The sides in 10^-5 mm, the longest first.
    pub fn sorted(self) -> [u64; 3] {
        let mut sides = self.sides().map(Length::ticks);
        sides.sort_unstable();
        sides.reverse();
        sides
    }

    /// The longest side, in 10^-5 mm.
    pub fn longest(self) -> u64 {
        self.sorted()[0]
    }

    /// Once around the parcel across its longest side, in 10^-5 mm: twice the sum of the other two sides.
    pub fn girth(self) -> u64 {
        let [_, width, height] = self.sorted();
        2 * (width + height)
    }

    /// Length and girth, in 10^-5 mm: what carriers limit.
    pub fn length_and_girth(self) -> u64 {
        self.longest() + self.girth()
    }

    /// The three sides together, in 10^-5 mm: what the letter post limits.
    pub fn sum_of_sides(self) -> u64 {
        self.sorted().iter().sum()
    }

    /// The volume in (10^-5 mm)³, exactly: at most 10^27.
    pub fn volume(self) -> u128 {
        self.sorted().map(u128::from).iter().product()
    }

    /// Is the volume over another?
    pub fn is_over(self, volume: Volume) -> bool {
        self.volume() > volume.ticks()
    }

    /// Does a rigid box of this size go into another, turned any of the six ways?
    pub fn fits_in(self, other: Self) -> bool {
        // Sorted sides decide it: if any turn fits, the sorted one does.
        let (inner, outer) = (self.sorted(), other.sorted());
        inner
            .iter()
            .zip(outer)
            .all(|(inner, outer)| *inner <= outer)
    }
}

impl FromStr for ParcelSize {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        if text.trim().is_empty() {
            return Err(MeasureError::Empty);
        }
        let parts: Vec<&str> = text.split(['x', 'X', '\u{d7}', '*']).collect();
        let [first, second, third] = parts[..] else {
            return Err(MeasureError::NotThreeSides);
        };
        let third = third.trim();
        let at = third.find(|sign: char| sign.is_ascii_alphabetic() || !sign.is_ascii());
        let unit = at.map_or("", |at| &third[at..]);
        // A side without a unit of its own has the last one's.
        let side = |part: &str| {
            let part = part.trim();
            if part.ends_with(|sign: char| sign.is_ascii_digit() || sign == '.') {
                format!("{part} {unit}").parse()
            } else {
                part.parse()
            }
        };
        Self::new(side(first)?, side(second)?, side(third)?)
    }
}

impl fmt::Display for ParcelSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            length,
            width,
            height,
        } = self;
        if length.unit() == height.unit() && width.unit() == height.unit() {
            write!(f, "{} x {} x {height}", length.amount(), width.amount())
        } else {
            write!(f, "{length} x {width} x {height}")
        }
    }
}

impl fmt::Debug for ParcelSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl TryFrom<String> for ParcelSize {
    type Error = MeasureError;

    fn try_from(text: String) -> Result<Self, MeasureError> {
        text.parse()
    }
}

impl From<ParcelSize> for String {
    fn from(size: ParcelSize) -> Self {
        size.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Result<&str, MeasureError>) {
        let found = text.parse::<ParcelSize>().map(|size| size.to_string());
        assert_eq!(found, expected.map(str::to_owned), "{text:?}");
    }

    #[test]
    fn a_size_is_three_sides_with_a_unit() {
        check("12x9x2 in", Ok("12 x 9 x 2 in"));
        check(" 12 \u{d7} 9,5 X 2in", Ok("12 x 9.5 x 2 in"));
        check("12 in x 9 in x 2 in", Ok("12 x 9 x 2 in"));
        check("30 cm x 9 in x 20 mm", Ok("30 cm x 9 in x 20 mm"));
        check("30 cm x 9 x 20 mm", Ok("30 cm x 9 mm x 20 mm"));
        check("10 x 10 x 10000 mm", Ok("10 x 10 x 10000 mm"));
        check("10 x 10 x 10000.1 mm", Err(MeasureError::TooLarge));
        check("12 x 0 x 2 in", Err(MeasureError::NoSide));
        check("12 x 9 in", Err(MeasureError::NotThreeSides));
        check("1 x 2 x 3 x 4 in", Err(MeasureError::NotThreeSides));
        check("", Err(MeasureError::Empty));
        let unknown = MeasureError::UnknownUnit {
            known: "in, cm, mm",
        };
        check("12 x 9 x 2", Err(unknown));
        check("12 x 9 x 2 oz", Err(unknown));
        check("12 x x 2 in", Err(MeasureError::Empty));
        check("12 x . x 2 in", Err(MeasureError::NotDigits));
    }

    #[test]
    fn a_size_is_a_text_in_json() {
        let size: ParcelSize = serde_json::from_str("\"12x9x2 in\"").unwrap();
        assert_eq!(serde_json::to_string(&size).unwrap(), "\"12 x 9 x 2 in\"");
        assert!(serde_json::from_str::<ParcelSize>("[12,9,2]").is_err());
    }

    #[test]
    fn the_order_of_the_sides_never_matters() {
        let box_of = |text: &str| text.parse::<ParcelSize>().unwrap();
        let carton = box_of("10 x 20 x 30 cm");
        for turned in ["30x20x10 cm", "20x10x30 cm", "10x30x20 cm"].map(box_of) {
            assert_eq!(turned.sorted(), [30_000_000, 20_000_000, 10_000_000]);
            assert_eq!(turned.length_and_girth(), 90_000_000);
            assert_eq!(turned.sum_of_sides(), 60_000_000);
            assert!(turned.fits_in(carton) && carton.fits_in(turned));
        }
        assert!(!box_of("1 x 1 x 30.0001 cm").fits_in(carton));
        assert!(box_of("1 x 1 x 1 in").is_over("16.387 cm3".parse().unwrap()));
        assert!(!box_of("1 x 1 x 1 in").is_over("1 in3".parse().unwrap()));
    }
}
