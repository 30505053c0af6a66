//! The terms of a venue: its schedule of charges, what they come to on one sale, what comes back of them, the least price
//! that reaches a payout, and the prices to skip.

mod age;
mod amount;
mod charge;
mod check;
mod dead_zones;
mod error;
mod invert;
mod line;
mod outlook;
mod pieces;
mod read;
mod refund;
mod sale;
mod schedule;
mod settle;
mod spread;
mod usual;
mod when;
mod work;

#[cfg(test)]
mod tests;

pub use age::{FRESH_DAYS, stale};
pub use amount::{Amount, MAX_STEPS, Period, Step};
pub use charge::{Base, Charge, MAX_LABEL, Positions, Refund, Scope};
pub use dead_zones::{DeadZone, dead_zones, dead_zones_from};
pub use error::{Refusal, TermsError};
pub use invert::invert;
pub use line::{Bound, How, Line, Part};
pub use outlook::{Assumed, settle_by};
pub use refund::refund;
pub use sale::Sale;
pub use schedule::{Group, MAX_CHARGES, MAX_GROUPS, Schedule};
pub use settle::{Charges, Settlement, monthly, payout, settle, unsold};
pub use spread::{Portion, Spread, spread};
pub use usual::{Regions, RegionsError, Usual};
pub use when::{MAX_NAMED, When};
