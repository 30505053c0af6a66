//! The verdict: is a thing worth the asking price, up to what price it would be, and why.
//!
//! [`appraise`] takes a [`Case`], all that was said about one thing, and gives an [`Appraisal`]: the sums at the likely and
//! at the low price, the ceiling with the rule that bound it, and, once there is an ask, the verdict with its reasons.

mod case;
mod ceiling;
mod judge;
mod missing;
mod opening;
mod pile;
mod reason;
mod rules;
mod sums;
mod verdict;
mod why;

#[cfg(test)]
mod worked;

pub use case::{Case, Selling};
pub use ceiling::Ceiling;
pub use judge::{Appraisal, Judged, appraise, likely};
pub use missing::Missing;
pub use pile::{JudgedPile, judge_pile};
pub use reason::Reason;
pub use rules::{HouseRules, Multiple, Rule, RulesError};
pub use sums::Sums;
pub use verdict::{Flag, Verdict};
pub use why::{Figure, How, What, Why};
