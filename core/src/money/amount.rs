//! An amount of money: a bounded count of minor units.

use std::fmt;
use std::iter::Sum;

use serde::{Deserialize, Serialize};

use super::MoneyError;

/// An amount in minor units (cents) of the book's currency, from −10^15 to 10^15. In files: a plain whole number.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(try_from = "i64", into = "i64")]
pub struct Money(i64);

const MOST: i64 = 1_000_000_000_000_000;

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The greatest amount that a sum may reach, 10^15 minor units. Far inside `i64`, so that a sum of two never wraps.
    pub const MAX: Self = Self(MOST);
    /// The greatest amount that a person may type, 10^10 minor units. A hundred thousand of them still sum below
    /// [`Money::MAX`], which is why the capped sums [`Money::plus`] and [`Money::minus`] never cap in practice.
    pub const TYPED_MAX: Self = Self(10_000_000_000);

    /// An amount known to be good, in minor units: `Money::new(26_00)` is 26.00 where cents are the minor unit.
    ///
    /// # Panics
    /// When the amount is out of range. For literals only; data goes through [`Money::from_minor`].
    pub const fn new(minor: i64) -> Self {
        assert!(
            minor >= -MOST && minor <= MOST,
            "an amount beyond the range of money"
        );
        Self(minor)
    }

    /// An amount from data, in minor units.
    ///
    /// # Errors
    /// [`MoneyError::OutOfRange`] beyond 10^15 either way.
    pub const fn from_minor(minor: i64) -> Result<Self, MoneyError> {
        if minor < -MOST || minor > MOST {
            return Err(MoneyError::OutOfRange);
        }
        Ok(Self(minor))
    }

    /// The count of minor units.
    pub const fn minor(self) -> i64 {
        self.0
    }

    /// Below nothing?
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// Exactly nothing?
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// The same amount without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The same amount the other way.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self(-self.0)
    }

    /// The sum, or `None` beyond the range.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        Self::from_minor(self.0 + other.0).ok()
    }

    /// The difference, or `None` beyond the range.
    pub fn checked_sub(self, other: Self) -> Option<Self> {
        Self::from_minor(self.0 - other.0).ok()
    }

    /// The sum, capped at the range. Sums of typed amounts can't reach the cap (see [`Money::TYPED_MAX`]); it is there
    /// so that a sum over any book at all has an answer.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self::capped(self.0 + other.0)
    }

    /// The difference, capped at the range like [`Money::plus`].
    #[must_use]
    pub const fn minus(self, other: Self) -> Self {
        Self::capped(self.0 - other.0)
    }

    /// The nearest amount within the range.
    pub(super) const fn capped(minor: i64) -> Self {
        if minor > MOST {
            Self(MOST)
        } else if minor < -MOST {
            Self(-MOST)
        } else {
            Self(minor)
        }
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Self::plus)
    }
}

impl<'a> Sum<&'a Money> for Money {
    fn sum<I: Iterator<Item = &'a Money>>(amounts: I) -> Self {
        amounts.copied().sum()
    }
}

impl TryFrom<i64> for Money {
    type Error = MoneyError;

    fn try_from(minor: i64) -> Result<Self, MoneyError> {
        Self::from_minor(minor)
    }
}

impl From<Money> for i64 {
    fn from(money: Money) -> Self {
        money.0
    }
}

/// For failing tests and logs only; people see [`super::plain`].
impl fmt::Debug for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} minor", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_is_a_whole_number_in_json_and_nothing_else() {
        assert_eq!(serde_json::to_string(&Money::new(-650)).unwrap(), "-650");
        assert_eq!(
            serde_json::from_str::<Money>("650").unwrap(),
            Money::new(650)
        );
        for bad in [
            "6.5",
            "650.0",
            "6e2",
            "\"650\"",
            "null",
            "1000000000000001",
            "-1000000000000001",
            "1e30",
        ] {
            assert!(serde_json::from_str::<Money>(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn sums_are_checked_or_capped() {
        let one = Money::new(1);
        assert_eq!(Money::MAX.checked_add(one), None);
        assert_eq!(Money::MAX.plus(one), Money::MAX);
        assert_eq!(Money::MAX.negated().checked_sub(one), None);
        assert_eq!(Money::MAX.negated().minus(one), Money::MAX.negated());
        assert_eq!(
            Money::new(5).checked_sub(Money::new(7)),
            Some(Money::new(-2))
        );
        assert_eq!(
            [5, 7, -2].map(Money::new).iter().sum::<Money>(),
            Money::new(10)
        );
    }

    #[test]
    fn a_hundred_thousand_of_the_dearest_typed_amount_stay_in_range() {
        let sum = Money::TYPED_MAX.minor().checked_mul(100_000).unwrap();
        assert!(Money::from_minor(sum).is_ok());
    }
}
