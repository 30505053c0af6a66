//! When terms were last checked, and whether to look again.

use crate::day::Day;

/// Terms unchecked for longer than this many days are worth another look. Common practice, no source.
pub const FRESH_DAYS: u32 = 180;

/// How many days ago the terms were checked, when that is more than [`FRESH_DAYS`]; `None` while they are fresh.
pub fn stale(checked: Day, today: Day) -> Option<u32> {
    let days = u32::try_from(today.days_since(checked)).ok()?;
    (days > FRESH_DAYS).then_some(days)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn terms_are_stale_after_half_a_year() {
        let day = |text: &str| text.parse::<Day>().unwrap();
        let check = |checked: &str, expected| {
            assert_eq!(
                stale(day(checked), day("2026-11-25")),
                expected,
                "{checked}"
            );
        };
        check("2026-11-25", None);
        check("2026-05-29", None);
        check("2026-05-28", Some(181));
        check("2025-11-25", Some(365));
        // A clock that was wrong: a check in days to come is no reason to nag.
        check("2027-01-01", None);
    }
}
