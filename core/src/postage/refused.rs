//! Why a service has no price for a parcel.

use crate::measure::{Length, Weight};

/// What a service refuses, with the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// Heavier than the service takes.
    #[error("Too heavy: {most} at most.")]
    TooHeavy {
        /// The most weight.
        most: Weight,
    },
    /// By its volume it would be billed beyond the last step.
    #[error("Too bulky: its volume would be billed as more than {most}.")]
    TooBulky {
        /// The last step.
        most: Weight,
    },
    /// The longest side.
    #[error("Too long: {most} at most.")]
    TooLong {
        /// The most.
        most: Length,
    },
    /// Length and girth.
    #[error("Too large: length and girth {most} at most.")]
    TooLarge {
        /// The most.
        most: Length,
    },
    /// The three sides together.
    #[error("Too large: the three sides together {most} at most.")]
    TooWide {
        /// The most.
        most: Length,
    },
    /// No price in a zone: the one asked for, or one that the buyer may live in.
    #[error("Not offered to zone {zone}.")]
    NotOffered {
        /// The zone's name.
        zone: String,
    },
    /// A zone that this service doesn't have.
    #[error("This service has no such zone.")]
    NoZone,
    /// The buyer is unknown, and so is how likely each zone is.
    #[error("Choose a zone, or say how likely each one is.")]
    NoMix,
    /// Only containers at a flat price, and this isn't one.
    #[error("This service takes its own containers only.")]
    NoSteps,
}
