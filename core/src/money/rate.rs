//! A percentage, kept as the exact decimal that was typed.

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::MoneyError;
use crate::number;

/// A percentage from 0 to 100 with at most four decimals. In files: a text such as `"12.5"`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Rate(Decimal);

const MAX_DECIMALS: u32 = 4;
const HUNDRED: Decimal = Decimal::from_parts(100, 0, 0, false, 0);

impl Rate {
    /// No part at all.
    pub const ZERO: Self = Self(Decimal::ZERO);
    /// The whole.
    pub const HUNDRED: Self = Self(HUNDRED);

    /// A whole percentage known to be good.
    ///
    /// # Panics
    /// Over 100. For literals only; data goes through [`Rate::from_decimal`] or [`Rate::parse`].
    pub const fn percent(whole: u32) -> Self {
        assert!(whole <= 100, "a share over 100 percent");
        Self(Decimal::from_parts(whole, 0, 0, false, 0))
    }

    /// A percentage from data.
    ///
    /// # Errors
    /// [`MoneyError::Negative`], [`MoneyError::OverHundred`] or [`MoneyError::RateTooFine`].
    pub fn from_decimal(percent: Decimal) -> Result<Self, MoneyError> {
        if percent.is_sign_negative() && !percent.is_zero() {
            return Err(MoneyError::Negative);
        }
        let percent = percent.normalize();
        if percent > HUNDRED {
            return Err(MoneyError::OverHundred);
        }
        if percent.scale() > MAX_DECIMALS {
            return Err(MoneyError::RateTooFine);
        }
        Ok(Self(percent))
    }

    /// A percentage as typed: digits with at most one point or comma.
    ///
    /// # Errors
    /// A [`MoneyError`] with the sentence to show.
    pub fn parse(text: &str) -> Result<Self, MoneyError> {
        let number = number::read(text)?;
        // Every digit string too long for a decimal is over a hundred, or finer than four decimals.
        let too_long = if number.whole.trim_start_matches('0').len() > 3 {
            MoneyError::OverHundred
        } else {
            MoneyError::RateTooFine
        };
        Decimal::from_str_exact(&number.text())
            .map_err(|_| too_long)
            .and_then(Self::from_decimal)
    }

    /// The percentage itself: 12.5 for an eighth.
    pub const fn as_decimal(self) -> Decimal {
        self.0
    }

    /// The percentage in ten-thousandths of a percent, exactly: 125,000 for 12.5. The whole is 1,000,000.
    pub fn ten_thousandths(self) -> u32 {
        let mut fixed = self.0;
        // Never rounds: a rate has at most four decimals and at most three digits before them.
        fixed.rescale(MAX_DECIMALS);
        u32::try_from(fixed.mantissa()).unwrap_or(u32::MAX)
    }

    /// Nothing at all?
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Both rates together, or `None` over the whole.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        let sum = self.0.checked_add(other.0)?;
        Self::from_decimal(sum).ok()
    }

    /// Both rates together, capped at the whole.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        self.checked_add(other).unwrap_or(Self::HUNDRED)
    }

    /// What is left of the whole: 40 for 60.
    #[must_use]
    pub fn left(self) -> Self {
        HUNDRED
            .checked_sub(self.0)
            .map_or(Self::ZERO, |left| Self(left.normalize()))
    }
}

impl fmt::Display for Rate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

impl fmt::Debug for Rate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0)
    }
}

impl FromStr for Rate {
    type Err = MoneyError;

    fn from_str(text: &str) -> Result<Self, MoneyError> {
        Self::parse(text)
    }
}

impl TryFrom<String> for Rate {
    type Error = MoneyError;

    fn try_from(text: String) -> Result<Self, MoneyError> {
        Self::parse(&text)
    }
}

impl From<Rate> for String {
    fn from(rate: Rate) -> Self {
        rate.0.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Result<&str, MoneyError>) {
        let found = Rate::parse(text).map(|rate| rate.to_string());
        assert_eq!(found, expected.map(str::to_owned), "{text:?}");
    }

    #[test]
    fn a_percentage_is_read_or_refused_with_a_reason() {
        check("12.5", Ok("12.5"));
        check("12,50", Ok("12.5"));
        check("0", Ok("0"));
        check("100.0000", Ok("100"));
        check("000000000000000000000000000000000012", Ok("12"));
        check("0.0001", Ok("0.0001"));
        check("0.00001", Err(MoneyError::RateTooFine));
        check(
            &format!("1.{}", "3".repeat(60)),
            Err(MoneyError::RateTooFine),
        );
        check("100.0001", Err(MoneyError::OverHundred));
        check(&"9".repeat(60), Err(MoneyError::OverHundred));
        check("-1", Err(MoneyError::Negative));
        check("ten", Err(MoneyError::NotDigits));
        check("12 %", Err(MoneyError::NotDigits));
        check("1 2", Err(MoneyError::Gap));
        check("12,500", Err(MoneyError::TwoWays));
        check("1.2.3", Err(MoneyError::ManyPoints));
        check("", Err(MoneyError::Empty));
        check(".", Err(MoneyError::Empty));
    }

    #[test]
    fn a_rate_is_a_text_in_json() {
        let rate: Rate = serde_json::from_str("\"12.50\"").unwrap();
        assert_eq!(serde_json::to_string(&rate).unwrap(), "\"12.5\"");
        for bad in ["12.5", "\"120\"", "\"x\"", "null"] {
            assert!(serde_json::from_str::<Rate>(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn rates_add_up_to_the_whole_at_most() {
        assert_eq!(Rate::percent(15).plus(Rate::percent(10)), Rate::percent(25));
        assert_eq!(Rate::percent(60).checked_add(Rate::percent(50)), None);
        assert_eq!(Rate::percent(60).plus(Rate::percent(50)), Rate::HUNDRED);
        assert_eq!(Rate::percent(60).left(), Rate::percent(40));
        assert_eq!(Rate::parse("12.5").unwrap().ten_thousandths(), 125_000);
    }
}
