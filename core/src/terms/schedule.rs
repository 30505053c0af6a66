//! A schedule of charges as the trader entered it.
//!
//! In files every choice is written by its name (`{"percent":"10"}`), what stands at its default is left out, and a name or
//! a field that this version doesn't know makes the schedule unreadable: terms with a condition that was left out would be
//! misread, which is worse.

use serde::Serialize;

use super::{Amount, Charge, Period, Positions};
use crate::money::Money;

/// The most charges that one schedule may have.
pub const MAX_CHARGES: usize = 12;
/// The most groups that one schedule may have.
pub const MAX_GROUPS: usize = 6;

/// What a venue takes from one sale: its charges, in the order they are shown.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Schedule {
    /// The charges. None at all is a venue that takes nothing.
    pub charges: Vec<Charge>,
    /// Limits on several charges together.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub groups: Vec<Group>,
}

/// A least and a most for several charges together. What they make of the sum is a line of its own: above nothing for a
/// least, below nothing for a most. Where none of the charges holds, the group doesn't either.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Group {
    /// What the difference is called.
    pub label: String,
    /// Which charges. A charge is in one group at most.
    pub charges: Positions,
    /// They are never less than this together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least: Option<Money>,
    /// They are never more than this together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most: Option<Money>,
}

impl Schedule {
    /// Charges without groups.
    pub const fn of(charges: Vec<Charge>) -> Self {
        Self {
            charges,
            groups: Vec::new(),
        }
    }

    /// The time over which a sale's `running` sales are to be summed up; `None` where no charge has tiers. A schedule
    /// that [`Schedule::check`] passes has one at most.
    pub fn tiers_by(&self) -> Option<Period> {
        self.charges.iter().find_map(|charge| match charge.amount {
            Amount::Tiers { by, .. } => Some(by),
            _ => None,
        })
    }
}
