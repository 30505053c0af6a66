//! The only display formatting: amounts, losses, days and times. Everything else hands over typed values.

use haulwren_core::day::Day;
use haulwren_core::money::{Currency, Money, plain};
use haulwren_core::stamp::At;

/// An amount with the currency's decimals: `6.00`. Negative ones have a true minus; use [`or_loss`] where a person must
/// not miss it.
pub fn amount(money: Money, currency: Currency) -> String {
    plain(money, currency)
}

/// An amount as short as it can be said: `4`, but `7.50`.
pub fn short(money: Money, currency: Currency) -> String {
    if money.minor() % currency.unit().minor() == 0 {
        (money.minor() / currency.unit().minor())
            .to_string()
            .replace('-', "\u{2212}")
    } else {
        plain(money, currency)
    }
}

/// An amount, and for a loss the word with a true minus: `loss −7.80`.
pub fn or_loss(money: Money, currency: Currency) -> String {
    if money.is_negative() {
        format!("loss {}", plain(money, currency))
    } else {
        plain(money, currency)
    }
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
const WEEKDAYS: [&str; 7] = [
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];

/// A day in full, without its year: `Saturday 21 November`.
pub fn day(day: Day) -> String {
    let (month, number) = parts(day);
    format!("{} {number} {}", weekday(day), MONTHS[month])
}

/// A day in short: `Sat 21 Nov`.
pub fn day_short(day: Day) -> String {
    let (month, number) = parts(day);
    format!("{} {number} {}", &weekday(day)[..3], &MONTHS[month][..3])
}

/// A day with its year: `21 November 2026`.
pub fn day_of_year(day: Day) -> String {
    let (month, number) = parts(day);
    format!("{number} {} {}", MONTHS[month], day.parts().0)
}

/// The time of day that the device's clock showed: `7:52`.
pub fn time(at: At) -> String {
    const DAY: i64 = 24 * 60;
    let utc = i64::try_from(at.0 / 60_000).unwrap_or(0);
    let minutes = (utc + i64::from(at.1)).rem_euclid(DAY);
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// The day that the device's clock showed, in short; empty beyond the calendar.
pub fn day_at(at: At) -> String {
    let utc = i64::try_from(at.0).unwrap_or(i64::MAX);
    Day::shown_at(utc, i32::from(at.1)).map_or_else(|_| String::new(), day_short)
}

/// The month counted from 0 and the day of the month.
fn parts(day: Day) -> (usize, u8) {
    let (_, month, number) = day.parts();
    (usize::from(month.clamp(1, 12) - 1), number)
}

/// Days from a Monday: 1 January 2024 was one.
fn weekday(day: Day) -> &'static str {
    let from = Day::new(2024, 1, 1).map_or(0, |monday| day.days_since(monday));
    let at = usize::try_from(from.rem_euclid(7)).unwrap_or(0);
    WEEKDAYS[at]
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn usd(minor: i64) -> (Money, Currency) {
        (Money::new(minor), Currency::from_code("USD").unwrap())
    }

    #[wasm_bindgen_test]
    fn a_loss_has_the_word_and_a_true_minus() {
        let (money, currency) = usd(-780);
        assert_eq!(or_loss(money, currency), "loss \u{2212}7.80");
        assert_eq!(or_loss(money.abs(), currency), "7.80");
    }

    #[wasm_bindgen_test]
    fn whole_amounts_are_said_short() {
        for (minor, said) in [(400, "4"), (750, "7.50"), (0, "0"), (-400, "\u{2212}4")] {
            let (money, currency) = usd(minor);
            assert_eq!(short(money, currency), said);
        }
    }

    #[wasm_bindgen_test]
    fn days_and_times_are_those_of_the_calendar() {
        let saturday = Day::new(2026, 11, 21).unwrap();
        assert_eq!(day(saturday), "Saturday 21 November");
        assert_eq!(day_short(saturday), "Sat 21 Nov");
        assert_eq!(day_short(Day::new(2023, 12, 31).unwrap()), "Sun 31 Dec");
        // 12:52 UTC where clocks stand five hours behind.
        assert_eq!(time(At(1_795_265_520_000, -300)), "7:52");
        assert_eq!(time(At(0, -30)), "23:30");
    }
}
