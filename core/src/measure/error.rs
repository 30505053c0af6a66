//! Why a text is not a measure, in sentences for people.

/// What is wrong with a weight or a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeasureError {
    /// Nothing was typed.
    #[error("Type a number and its unit.")]
    Empty,
    /// The part before the unit is not a number with at most one point.
    #[error("Use digits and one point only.")]
    NotDigits,
    /// A minus before the number.
    #[error("This can't be less than nothing.")]
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
    /// Over a million of the unit.
    #[error("That is more than any parcel.")]
    TooLarge,
}
