//! Civil days: a date as a calendar shows it, without a time or a zone. "Today" is always given, never read.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use time::{Date, Month};

/// A civil day in the years 0 to 9999 of the Gregorian calendar. In files: `"2026-11-21"` (RFC 3339, full-date).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day(Date);

/// Why a text is not a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DayError {
    /// Not the four-two-two digits of a full date.
    #[error("Write the day as year-month-day, like 2026-11-21.")]
    Form,
    /// The right form, but no calendar has it (30 February).
    #[error("There is no such day in the calendar.")]
    NoSuchDay,
}

const MILLISECONDS_A_MINUTE: i64 = 60_000;
const MILLISECONDS_A_DAY: i64 = 86_400_000;
/// Julian day number of 1 January 1970.
const EPOCH_JULIAN_DAY: i64 = 2_440_588;

impl Day {
    /// The day of this year, month (1 to 12) and day of the month.
    ///
    /// # Errors
    /// [`DayError::NoSuchDay`] when the calendar has no such day, or the year is not within 0 to 9999.
    pub fn new(year: i32, month: u8, day: u8) -> Result<Self, DayError> {
        if !(0..=9999).contains(&year) {
            return Err(DayError::NoSuchDay);
        }
        let month = Month::try_from(month).map_err(|_| DayError::NoSuchDay)?;
        Date::from_calendar_date(year, month, day)
            .map(Self)
            .map_err(|_| DayError::NoSuchDay)
    }

    /// The day that a clock shows at `utc_ms` (milliseconds since 1970 UTC) when it stands `offset_minutes` east of UTC.
    ///
    /// # Errors
    /// [`DayError::NoSuchDay`] for a moment outside the years 0 to 9999.
    pub fn shown_at(utc_ms: i64, offset_minutes: i32) -> Result<Self, DayError> {
        let shift = i64::from(offset_minutes) * MILLISECONDS_A_MINUTE;
        let shown = utc_ms.checked_add(shift).ok_or(DayError::NoSuchDay)?;
        let julian = shown.div_euclid(MILLISECONDS_A_DAY) + EPOCH_JULIAN_DAY;
        let julian = i32::try_from(julian).map_err(|_| DayError::NoSuchDay)?;
        let date = Date::from_julian_day(julian).map_err(|_| DayError::NoSuchDay)?;
        Self::new(date.year(), u8::from(date.month()), date.day())
    }

    /// Days from `earlier` to this day; negative when `earlier` is later.
    pub fn days_since(self, earlier: Self) -> i32 {
        self.0.to_julian_day() - earlier.0.to_julian_day()
    }

    /// Year, month (1 to 12), day of the month.
    pub fn parts(self) -> (i32, u8, u8) {
        (self.0.year(), u8::from(self.0.month()), self.0.day())
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.parts();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl fmt::Debug for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Day {
    type Err = DayError;

    fn from_str(text: &str) -> Result<Self, DayError> {
        let bytes = text.as_bytes();
        let shaped = bytes.len() == 10
            && bytes.iter().enumerate().all(|(at, byte)| match at {
                4 | 7 => *byte == b'-',
                _ => byte.is_ascii_digit(),
            });
        if !shaped {
            return Err(DayError::Form);
        }
        let year = text[..4].parse().map_err(|_| DayError::Form)?;
        let month = text[5..7].parse().map_err(|_| DayError::Form)?;
        let day = text[8..].parse().map_err(|_| DayError::Form)?;
        Self::new(year, month, day)
    }
}

impl TryFrom<String> for Day {
    type Error = DayError;

    fn try_from(text: String) -> Result<Self, DayError> {
        text.parse()
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Result<(i32, u8, u8), DayError>) {
        assert_eq!(text.parse::<Day>().map(Day::parts), expected, "{text:?}");
    }

    #[test]
    fn a_day_is_read_strictly() {
        check("2026-11-21", Ok((2026, 11, 21)));
        check("2028-02-29", Ok((2028, 2, 29)));
        check("2026-02-29", Err(DayError::NoSuchDay));
        check("2026-13-01", Err(DayError::NoSuchDay));
        check("2026-1-1", Err(DayError::Form));
        check("2026-11-2\u{0661}", Err(DayError::Form));
        check("+026-11-21", Err(DayError::Form));
        check("", Err(DayError::Form));
    }

    #[test]
    fn a_day_keeps_its_text_in_json() {
        let day: Day = serde_json::from_str("\"2026-11-21\"").unwrap();
        assert_eq!(serde_json::to_string(&day).unwrap(), "\"2026-11-21\"");
        assert!(serde_json::from_str::<Day>("\"2026-11-31\"").is_err());
        assert!(serde_json::from_str::<Day>("20261121").is_err());
    }

    #[test]
    fn days_between_cross_months_and_years() {
        let day = |text: &str| text.parse::<Day>().unwrap();
        assert_eq!(day("2027-01-01").days_since(day("2026-11-21")), 41);
        assert_eq!(day("2026-11-21").days_since(day("2027-01-01")), -41);
        assert!(day("2026-11-21") < day("2026-11-22"));
    }
}
