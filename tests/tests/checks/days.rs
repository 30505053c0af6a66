//! Civil days.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::day::Day;

/// RFC 3339, section 5.8 (R): 1996-12-19T16:39:57-08:00 is 851042397 seconds after 1970, already the 20th in UTC.
#[test]
fn a_day_is_the_one_that_the_clock_showed() {
    let moment = 851_042_397_000;
    let shown = |offset_minutes| Day::shown_at(moment, offset_minutes).unwrap().to_string();
    assert_eq!(shown(-8 * 60), "1996-12-19");
    assert_eq!(shown(0), "1996-12-20");
}

/// RFC 3339, section 5.7 and appendix C (M): February has 29 days in 2000 and 2004, 28 in 1900 and 2001.
#[test]
fn leap_days_follow_the_calendar() {
    for (year, leap) in [(2000, true), (2004, true), (1900, false), (2001, false)] {
        assert_eq!(Day::new(year, 2, 29).is_ok(), leap, "{year}");
    }
}
