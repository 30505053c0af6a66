//! What a thing sells for: its own price, as comps show it.

use serde::de::Error;
use serde::{Deserialize, Serialize};

use crate::json::{Object, field, fill};
use crate::money::Money;

/// Its fields in files.
const NAMES: &[&str] = &["low", "likely", "high"];

/// The thing's own price: low (1 in 10 go lower), likely, high (1 in 10 go higher). Always low ≤ likely ≤ high, all from
/// nothing up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "Unchecked", into = "Unchecked")]
pub struct Sells {
    low: Money,
    likely: Money,
    high: Money,
}

/// Why three prices don't go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WorthError {
    /// The low price is over the likely one.
    #[error("The low price is over the likely one.")]
    LowOverLikely,
    /// The high price is under the likely one.
    #[error("The high price is under the likely one.")]
    HighUnderLikely,
    /// A price below nothing.
    #[error("A price can't be less than nothing.")]
    Negative,
    /// Allowances of more than the whole price.
    #[error("The allowances come to more than 100 percent.")]
    AllowancesOverHundred,
}

impl Sells {
    /// The three prices; a low or high that isn't known is the same as likely.
    ///
    /// # Errors
    /// A [`WorthError`] when they are out of order or below nothing.
    pub fn new(low: Option<Money>, likely: Money, high: Option<Money>) -> Result<Self, WorthError> {
        let low = low.unwrap_or(likely);
        let high = high.unwrap_or(likely);
        if low.is_negative() || likely.is_negative() {
            return Err(WorthError::Negative);
        }
        if low > likely {
            return Err(WorthError::LowOverLikely);
        }
        if high < likely {
            return Err(WorthError::HighUnderLikely);
        }
        Ok(Self { low, likely, high })
    }

    /// 1 in 10 go lower.
    pub const fn low(self) -> Money {
        self.low
    }

    /// The price to judge by.
    pub const fn likely(self) -> Money {
        self.likely
    }

    /// 1 in 10 go higher.
    pub const fn high(self) -> Money {
        self.high
    }
}

/// The same as it stands in files, before it is checked.
#[derive(Default, Serialize, Deserialize)]
#[serde(try_from = "Object")]
struct Unchecked {
    low: Option<Money>,
    likely: Money,
    high: Option<Money>,
}

impl TryFrom<Object> for Unchecked {
    type Error = serde_json::Error;

    fn try_from(object: Object) -> Result<Self, Self::Error> {
        let mut read = Self {
            likely: field(&object, "likely")?,
            ..Self::default()
        };
        fill(&object, "low", &mut read.low)?;
        fill(&object, "high", &mut read.high)?;
        match object.keys().find(|name| !NAMES.contains(&name.as_str())) {
            Some(name) => Err(Self::Error::unknown_field(name, NAMES)),
            None => Ok(read),
        }
    }
}

impl TryFrom<Unchecked> for Sells {
    type Error = WorthError;

    fn try_from(read: Unchecked) -> Result<Self, WorthError> {
        Self::new(read.low, read.likely, read.high)
    }
}

impl From<Sells> for Unchecked {
    fn from(sells: Sells) -> Self {
        Self {
            low: Some(sells.low),
            likely: sells.likely,
            high: Some(sells.high),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(
        low: Option<i64>,
        likely: i64,
        high: Option<i64>,
        expected: Result<[i64; 3], WorthError>,
    ) {
        let found = Sells::new(
            low.map(Money::new),
            Money::new(likely),
            high.map(Money::new),
        );
        assert_eq!(
            found.map(|s| [s.low(), s.likely(), s.high()].map(Money::minor)),
            expected
        );
    }

    #[test]
    fn prices_are_in_order_and_unknown_ends_are_likely() {
        check(Some(18), 26, Some(34), Ok([18, 26, 34]));
        check(None, 26, None, Ok([26, 26, 26]));
        check(Some(0), 0, Some(0), Ok([0, 0, 0]));
        check(Some(27), 26, None, Err(WorthError::LowOverLikely));
        check(None, 26, Some(25), Err(WorthError::HighUnderLikely));
        check(Some(-1), 26, None, Err(WorthError::Negative));
        check(None, -1, None, Err(WorthError::Negative));
    }

    #[test]
    fn prices_out_of_order_are_unreadable_too() {
        assert!(serde_json::from_str::<Sells>(r#"{"low":27,"likely":26}"#).is_err());
        let read: Sells = serde_json::from_str(r#"{"likely":26}"#).unwrap();
        assert_eq!(
            serde_json::to_string(&read).unwrap(),
            r#"{"low":26,"likely":26,"high":26}"#
        );
    }
}
