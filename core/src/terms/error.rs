//! What is wrong with a schedule, or why no price reaches a payout, in sentences for people.

use super::{MAX_CHARGES, MAX_GROUPS, MAX_LABEL, MAX_NAMED, MAX_STEPS};

/// Why a schedule can't be saved. A `position` counts the charges from 1, a `group` the groups.
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
    /// An amount of a charge below nothing.
    #[error("Charge {position} can't be less than nothing.")]
    NegativeFlat {
        /// Which charge.
        position: usize,
    },
    /// An amount of a charge over what may be typed.
    #[error("Charge {position} is more than one amount may be.")]
    LargeFlat {
        /// Which charge.
        position: usize,
    },
    /// A table without a step.
    #[error("The table of charge {position} is empty.")]
    NoSteps {
        /// Which charge.
        position: usize,
    },
    /// A table over [`MAX_STEPS`] steps.
    #[error("The table of charge {position} can have at most {MAX_STEPS} steps.")]
    TooManySteps {
        /// Which charge.
        position: usize,
    },
    /// Steps that don't begin each over the one before.
    #[error("In the table of charge {position} each step has to begin over the one before.")]
    StepsNotAscending {
        /// Which charge.
        position: usize,
    },
    /// A least over the most.
    #[error("The least of charge {position} is over its most.")]
    LeastOverMost {
        /// Which charge.
        position: usize,
    },
    /// A condition on the price that no price meets.
    #[error("No price is within the range of charge {position}.")]
    NoPrice {
        /// Which charge.
        position: usize,
    },
    /// A region without a name, or with one over [`MAX_LABEL`] characters.
    #[error("Give each region of charge {position} a name of at most {MAX_LABEL} characters.")]
    BadRegion {
        /// Which charge.
        position: usize,
    },
    /// Over [`MAX_NAMED`] kinds or regions.
    #[error("Charge {position} can name at most {MAX_NAMED} kinds and as many regions.")]
    TooManyNamed {
        /// Which charge.
        position: usize,
    },
    /// A percentage of other charges that names none.
    #[error("Say which charges charge {position} is taken of.")]
    OfNothing {
        /// Which charge.
        position: usize,
    },
    /// A percentage of charges that don't all come earlier.
    #[error("Charge {position} can only be taken of charges before it.")]
    OfLater {
        /// Which charge.
        position: usize,
    },
    /// A charge by the month and one by the sale, one of which is taken of the other.
    #[error("Charge {position} mixes charges by the month with charges on a sale.")]
    MixedMonth {
        /// Which charge.
        position: usize,
    },
    /// A charge by the month that hangs on a sale.
    #[error(
        "Charge {position} is by the month: make it a flat amount, or a part of other charges by the month, without conditions."
    )]
    MonthOfSale {
        /// Which charge.
        position: usize,
    },
    /// Tiers by the month beside tiers by the year.
    #[error(
        "Charge {position} goes by the month's sales and another by the year's: use one of them."
    )]
    TwoPeriods {
        /// Which charge.
        position: usize,
    },
    /// Over [`MAX_GROUPS`].
    #[error("A venue can have at most {MAX_GROUPS} limits on several charges.")]
    TooManyGroups,
    /// A group without a name, or with one over [`MAX_LABEL`] characters.
    #[error("Give limit {group} a name of at most {MAX_LABEL} characters.")]
    GroupLabel {
        /// Which group.
        group: usize,
    },
    /// A group of no charges, or of one that isn't there.
    #[error("Limit {group} has to name charges that are there.")]
    GroupOfNone {
        /// Which group.
        group: usize,
    },
    /// A charge in two groups.
    #[error("Limit {group} names a charge that another limit names.")]
    GroupsOverlap {
        /// The second of the groups.
        group: usize,
    },
    /// A group of charges by the month and charges on a sale.
    #[error("Limit {group} mixes charges by the month with charges on a sale.")]
    GroupMixed {
        /// Which group.
        group: usize,
    },
    /// A group without a least and a most, or with one that is negative, too large or over the other.
    #[error("Limit {group} needs a least or a most, and the least can't be over the most.")]
    GroupLimits {
        /// Which group.
        group: usize,
    },
    /// At some price, the venue takes all that a dearer one adds.
    #[error("These percentages come to 100 or more: the venue would take the whole price.")]
    TakesAll,
}

/// Why no price reaches a payout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// A dearer price pays nothing more, or next to nothing.
    #[error("No price reaches this: the venue's percentages come to 100 or nearly.")]
    TakesAll,
    /// The price would be beyond what a book can hold.
    #[error("The price would be beyond what a book can hold.")]
    TooDear,
}
