//! A number with its unit, as typed.

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::MeasureError;
use crate::money::product;
use crate::number;

/// A unit of one dimension, defined exactly in the dimension's base unit.
pub trait Unit: Copy + PartialEq + 'static {
    /// Every unit, in the order they are offered.
    const ALL: &'static [Self];
    /// Their symbols, for people.
    const KNOWN: &'static str;

    /// The symbol: `oz`.
    fn symbol(self) -> &'static str;

    /// How many base units one of it is: exact, with at most nine decimals.
    fn in_base(self) -> Decimal;
}

/// An amount of some unit, not below nothing, at most a million, with at most four decimals. In files: the text `"9 oz"`.
/// Two quantities are equal when they were typed alike; [`Quantity::in_base`] compares what they measure.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String", bound = "U: Unit")]
pub struct Quantity<U> {
    amount: Decimal,
    unit: U,
}

const MAX_DECIMALS: u32 = 4;
const MOST: Decimal = Decimal::from_parts(1_000_000, 0, 0, false, 0);

impl<U: Unit> Quantity<U> {
    /// So much of a unit.
    ///
    /// # Errors
    /// [`MeasureError::Negative`], [`MeasureError::TooFine`] or [`MeasureError::TooLarge`].
    pub fn new(amount: Decimal, unit: U) -> Result<Self, MeasureError> {
        if amount.is_sign_negative() {
            return Err(MeasureError::Negative);
        }
        if amount > MOST {
            return Err(MeasureError::TooLarge);
        }
        if amount.normalize().scale() > MAX_DECIMALS {
            return Err(MeasureError::TooFine);
        }
        Ok(Self { amount, unit })
    }

    /// A whole number of a unit, for literals.
    pub const fn whole(amount: u16, unit: U) -> Self {
        let amount = Decimal::from_parts(amount as u32, 0, 0, false, 0);
        Self { amount, unit }
    }

    /// The number that was typed.
    pub const fn amount(self) -> Decimal {
        self.amount
    }

    /// The unit that was typed.
    pub const fn unit(self) -> U {
        self.unit
    }

    /// The number in ten-thousandths, which is how fine it can be typed: 95,000 for 9.5. At most 10^10.
    pub fn ten_thousandths(self) -> u64 {
        let number = self.amount.normalize();
        let missing = MAX_DECIMALS.saturating_sub(number.scale());
        // In range: `new` let nothing finer, greater or below nothing in.
        u64::try_from(number.mantissa()).unwrap_or(0) * 10_u64.pow(missing)
    }

    /// The quantity of so many ten-thousandths of a unit.
    ///
    /// # Errors
    /// [`MeasureError::TooLarge`] over a million of the unit.
    pub fn from_ten_thousandths(count: u128, unit: U) -> Result<Self, MeasureError> {
        let count = i64::try_from(count).map_err(|_| MeasureError::TooLarge)?;
        Self::new(Decimal::new(count, MAX_DECIMALS).normalize(), unit)
    }

    /// The same in the dimension's base unit, exactly.
    pub fn in_base(self) -> Decimal {
        // Always exact: at most 11 digits of the amount by 12 of the unit, of the 28 that a decimal has.
        product(self.amount, self.unit.in_base()).unwrap_or(Decimal::MAX)
    }
}

impl<U: Unit> FromStr for Quantity<U> {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(MeasureError::Empty);
        }
        let end = text.find(char::is_alphabetic).unwrap_or(text.len());
        let (number, symbol) = text.split_at(end);
        let number = number::read(number)?;
        let unit = U::ALL
            .iter()
            .copied()
            .find(|unit| unit.symbol() == symbol.trim())
            .ok_or(MeasureError::UnknownUnit { known: U::KNOWN })?;
        // A text too long for a decimal is over the most, or has too many decimals.
        let too_long = if number.whole.trim_start_matches('0').len() > 7 {
            MeasureError::TooLarge
        } else {
            MeasureError::TooFine
        };
        Decimal::from_str_exact(&number.text())
            .map_err(|_| too_long)
            .and_then(|amount| Self::new(amount, unit))
    }
}

impl<U: Unit> fmt::Display for Quantity<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount, self.unit.symbol())
    }
}

impl<U: Unit> fmt::Debug for Quantity<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl<U: Unit> TryFrom<String> for Quantity<U> {
    type Error = MeasureError;

    fn try_from(text: String) -> Result<Self, MeasureError> {
        text.parse()
    }
}

impl<U: Unit> From<Quantity<U>> for String {
    fn from(quantity: Quantity<U>) -> Self {
        quantity.to_string()
    }
}
