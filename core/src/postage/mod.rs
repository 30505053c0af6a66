//! Postage: who pays it at a venue, and what it costs by a rate card.
//!
//! Postage in (what the buyer pays for it) and postage out (what the parcel costs) are always separate lines. A rate card is
//! the trader's own: typed, or pasted from a table. A quote is itemised, and there is never one for what the service refuses.

mod arrangement;
mod billable;
mod card;
mod check;
mod hint;
mod json;
mod paste;
mod quote;
mod refused;

pub use arrangement::{Arrangement, ArrangementError, LabelPrice, NoPosting, Payer, Posting};
pub use billable::billable;
pub use card::{FlatPrice, Limits, Over, RateCard, Rounding, Service, Step, Surcharge, Volumetric};
pub use check::{
    CardError, LONGEST_NAME, MAX_SERVICES, MAX_STEPS, MAX_ZONES, ROUGH_STEPS, WHOLE_MIX,
};
pub use hint::Hint;
pub use paste::{Pasted, RowFault, parse_table};
pub use quote::{Line, Parcel, Quote, To, What, best, quote};
pub use refused::Refused;

#[cfg(test)]
mod tests {
    use super::*;

    mod check;
    mod northmail;
}
