//! What is wrong with a schedule, or why no price reaches a payout, in sentences for people.

use super::{MAX_CHARGES, MAX_LABEL};

/// Why a schedule can't be saved. A `position` counts the charges from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TermsError {
    /// Over [`MAX_CHARGES`].
    #[error("A venue can have at most {MAX_CHARGES} charges.")]
    TooMany,
    /// A charge without a name.
    #[error("Give charge {position} a name.")]
    NoLabel {
        /// Which charge.
        position: usize,
    },
    /// A name over [`MAX_LABEL`] characters.
    #[error("The name of charge {position} is longer than {MAX_LABEL} characters.")]
    LongLabel {
        /// Which charge.
        position: usize,
    },
    /// A flat charge below nothing.
    #[error("Charge {position} can't be less than nothing.")]
    NegativeFlat {
        /// Which charge.
        position: usize,
    },
    /// A flat charge over what may be typed.
    #[error("Charge {position} is more than one amount may be.")]
    LargeFlat {
        /// Which charge.
        position: usize,
    },
    /// Percentages of a hundred or more together.
    #[error("These percentages come to 100 or more: the venue would take the whole price.")]
    TakesAll,
}

/// Why no price reaches a payout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The percentages come to 100 or more, so a dearer price pays nothing more.
    #[error("No price reaches this: the venue's percentages come to 100 or more.")]
    TakesAll,
    /// The price would be beyond what a book can hold.
    #[error("The price would be beyond what a book can hold.")]
    TooDear,
}
