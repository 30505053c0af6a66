//! Why a text or a number is not money, a rate or a currency, in sentences for people.

use crate::number::NumberError;

/// What is wrong with an amount, a rate or a currency code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Nothing was typed, or a lone point.
    #[error("Type an amount.")]
    Empty,
    /// Letters or signs among the digits.
    #[error("{}", NumberError::NotDigits)]
    NotDigits,
    /// More than one point or comma.
    #[error("{}", NumberError::ManyPoints)]
    ManyPoints,
    /// A gap between the digits.
    #[error("{}", NumberError::Gap)]
    Gap,
    /// A comma before three digits.
    #[error("{}", NumberError::TwoWays)]
    TwoWays,
    /// A minus before the amount.
    #[error("{}", NumberError::Negative)]
    Negative,
    /// More decimals than the currency has.
    #[error("{}", too_fine(*.decimals))]
    TooFine {
        /// How many decimals the currency has.
        decimals: u8,
    },
    /// Over [`super::Money::TYPED_MAX`].
    #[error("That is more than one amount may be.")]
    TooLarge,
    /// A stored number beyond [`super::Money::MAX`].
    #[error("This amount is beyond what a book can hold.")]
    OutOfRange,
    /// A rate over a hundred percent.
    #[error("A share can't be over 100 percent.")]
    OverHundred,
    /// A rate with more than four decimals.
    #[error("Use at most 4 decimals in a percentage.")]
    RateTooFine,
    /// Not a code of ISO 4217 with a minor unit.
    #[error("This is not a currency code of three letters that Haulwren knows.")]
    UnknownCurrency,
}

fn too_fine(decimals: u8) -> String {
    match decimals {
        0 => "This currency has whole amounts only.".to_owned(),
        1 => "Use at most 1 decimal.".to_owned(),
        _ => format!("Use at most {decimals} decimals."),
    }
}

impl From<NumberError> for MoneyError {
    fn from(error: NumberError) -> Self {
        match error {
            NumberError::Empty => Self::Empty,
            NumberError::NotDigits => Self::NotDigits,
            NumberError::ManyPoints => Self::ManyPoints,
            NumberError::Negative => Self::Negative,
            NumberError::Gap => Self::Gap,
            NumberError::TwoWays => Self::TwoWays,
        }
    }
}
