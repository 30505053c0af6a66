//! Why a text is not a measure, in sentences for people.

use crate::number::NumberError;

/// What is wrong with a weight or a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeasureError {
    /// Nothing was typed.
    #[error("Type a number and its unit.")]
    Empty,
    /// The part before the unit is not a number with at most one point.
    #[error("{}", NumberError::NotDigits)]
    NotDigits,
    /// More than one point or comma.
    #[error("{}", NumberError::ManyPoints)]
    ManyPoints,
    /// A gap between the digits.
    #[error("{}", NumberError::Gap)]
    Gap,
    /// A comma before three digits; or a point, where nobody measures so finely.
    #[error("{}", NumberError::TwoWays)]
    TwoWays,
    /// A minus before the number.
    #[error("{}", NumberError::Negative)]
    Negative,
    /// No unit, or one that isn't known.
    #[error("Choose one of the units: {known}.")]
    UnknownUnit {
        /// The units there are, for people.
        known: &'static str,
    },
    /// More than four decimals.
    #[error("Use at most 4 decimals.")]
    TooFine,
    /// Not three sides.
    #[error("Give three sides, such as 12 x 9 x 2 in.")]
    NotThreeSides,
    /// A side of no length.
    #[error("A side can't be nothing.")]
    NoSide,
    /// Over a million of the unit, or a side over ten metres.
    #[error("That is more than any parcel.")]
    TooLarge,
}

impl From<NumberError> for MeasureError {
    fn from(error: NumberError) -> Self {
        match error {
            NumberError::Empty | NumberError::NotDigits => Self::NotDigits,
            NumberError::ManyPoints => Self::ManyPoints,
            NumberError::Negative => Self::Negative,
            NumberError::Gap => Self::Gap,
            NumberError::TwoWays => Self::TwoWays,
        }
    }
}
