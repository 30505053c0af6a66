//! How much a charge is: a percentage, a flat sum, or a table of steps.

use serde::Serialize;

use crate::money::{Money, Rate};

/// The most steps that one amount may have.
pub const MAX_STEPS: usize = 12;

/// How much a charge is. Whatever the form, it is rounded half away from zero, once, at its end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// So much of the base.
    Percent(Rate),
    /// The same amount on every sale.
    Flat(Money),
    /// The whole base at the rate of the bracket that it lies in, and that bracket's flat sum. A bracket begins at its
    /// `from` and ends just under the next one's; under the first, nothing is owed.
    Brackets(Vec<Step>),
    /// Each slice of the base at its own rate. A slice's flat sum is owed as soon as any of the base lies over its `from`.
    Slices(Vec<Step>),
    /// The whole base at the rate of the tier that the running sales, before this one, have reached, and that tier's flat
    /// sum. A tier is reached at its `from`.
    Tiers {
        /// Which running sales.
        by: Period,
        /// The tiers.
        steps: Vec<Step>,
    },
}

/// A line of a table: from this much on, a rate and a flat sum, either of which may be nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Step {
    /// Where it begins, on the base or on the running sales.
    #[serde(skip_serializing_if = "nothing")]
    pub from: Money,
    /// So much of the base.
    #[serde(skip_serializing_if = "no_rate")]
    pub percent: Rate,
    /// And so much flat.
    #[serde(skip_serializing_if = "nothing")]
    pub flat: Money,
}

/// Over what time sales are summed up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Period {
    /// A calendar month.
    Month,
    /// A year.
    Year,
}

impl Step {
    /// A rate from so much on.
    pub const fn rate(from: Money, percent: Rate) -> Self {
        Self {
            from,
            percent,
            flat: Money::ZERO,
        }
    }

    /// A flat sum from so much on.
    pub const fn flat(from: Money, flat: Money) -> Self {
        Self {
            from,
            percent: Rate::ZERO,
            flat,
        }
    }
}

impl Amount {
    /// The steps of the forms that have some.
    pub fn steps(&self) -> &[Step] {
        match self {
            Self::Percent(_) | Self::Flat(_) => &[],
            Self::Brackets(steps) | Self::Slices(steps) | Self::Tiers { steps, .. } => steps,
        }
    }

    /// The greatest rate in it.
    pub(super) fn top_rate(&self) -> Rate {
        match self {
            Self::Percent(rate) => *rate,
            _ => self
                .steps()
                .iter()
                .map(|step| step.percent)
                .fold(Rate::ZERO, Rate::max),
        }
    }
}

/// Serde asks by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn nothing(amount: &Money) -> bool {
    amount.is_zero()
}

/// Serde asks by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn no_rate(rate: &Rate) -> bool {
    rate.is_zero()
}
