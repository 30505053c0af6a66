//! A lot that is sorted later, as the keypad types it: how many things, and what was paid for all.

use super::draft::Press;
use super::keys::pressed;
use crate::book::{MOST_UNSORTED, Refusal};
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, MoneyError, parse};
use serde::{Deserialize, Serialize};

/// What is typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct LotForm {
    /// How many things.
    pub count: String,
    /// What was paid.
    pub paid: String,
    /// Whether the keypad types what was paid, and not the count.
    pub on_paid: bool,
    /// Whether the next digit starts the field anew.
    pub fresh: bool,
    /// Whether it was paid for otherwise than in cash.
    pub other: bool,
}

read_form!(LotForm: count paid on_paid fresh other);

/// Why a key was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotTyped {
    /// No amount, or too large a one.
    #[error(transparent)]
    Amount(#[from] MoneyError),
    /// More things than one lot may hold.
    #[error("{}", Refusal::TooManyUnsorted)]
    Count,
}

/// Counts that are one touch away.
pub const COUNTS: [u16; 6] = [3, 5, 6, 10, 12, 20];

impl LotForm {
    /// Whether nothing is typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.count.is_empty() && self.paid.is_empty()
    }

    /// Takes a count, and goes on to what was paid.
    pub fn choose(&mut self, count: u16) {
        self.count = count.to_string();
        self.go(true);
    }

    /// Moves the keypad.
    pub fn go(&mut self, on_paid: bool) {
        self.on_paid = on_paid;
        self.fresh = true;
    }

    /// Types a key into the field at hand. A count takes digits only.
    ///
    /// # Errors
    /// Why the key was not taken, with a sentence.
    pub fn press(&mut self, press: Press, currency: Currency) -> Result<(), NotTyped> {
        if self.on_paid {
            self.paid = pressed(&self.paid, self.fresh, press, currency)?;
        } else {
            match press {
                Press::Digit(digit) => {
                    if self.fresh {
                        self.count.clear();
                    }
                    let after = [self.count.as_str(), &digit.to_string()].concat();
                    let after = after.trim_start_matches('0').to_owned();
                    if after
                        .parse::<u16>()
                        .is_ok_and(|count| count > MOST_UNSORTED)
                    {
                        return Err(NotTyped::Count);
                    }
                    self.count = after;
                }
                Press::RubOut => drop(self.count.pop()),
                Press::Clear => self.count.clear(),
                Press::Point | Press::Half => return Ok(()),
            }
        }
        self.fresh = false;
        Ok(())
    }

    /// The count and what was paid, once both are there.
    #[must_use]
    pub fn read(&self, currency: Currency) -> Option<(u16, Money)> {
        let count = self.count.parse().ok().filter(|count| *count > 0)?;
        Some((count, parse(&self.paid, currency).ok()?))
    }
}

#[cfg(test)]
mod tests {
    use super::super::kit::usd;
    use super::*;

    #[test]
    fn twelve_for_ten_takes_a_count_and_two_digits() {
        let mut form = LotForm::default();
        assert_eq!(form.read(usd()), None);
        form.choose(12);
        form.press(Press::Digit(1), usd()).unwrap();
        assert_eq!(form.read(usd()), Some((12, Money::new(1_00))));
        form.press(Press::Digit(0), usd()).unwrap();
        assert_eq!(form.read(usd()), Some((12, Money::new(10_00))));
    }

    #[test]
    fn a_count_is_typed_in_digits_and_stays_within_the_most() {
        let mut form = LotForm::default();
        form.press(Press::Digit(0), usd()).unwrap();
        assert_eq!(form.count, "");
        for _ in 0..3 {
            form.press(Press::Digit(9), usd()).unwrap();
        }
        let refused = form.press(Press::Digit(9), usd()).unwrap_err();
        assert_eq!(
            refused.to_string(),
            "A lot holds 999 unsorted things at most."
        );
        form.press(Press::Half, usd()).unwrap();
        form.press(Press::RubOut, usd()).unwrap();
        assert_eq!(form.count, "99");
        form.go(false);
        form.press(Press::Digit(7), usd()).unwrap();
        assert_eq!(form.count, "7");
    }
}
