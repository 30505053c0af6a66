//! The same for what came with the fourth version: what a thing was to sell for when it was judged.

use haulwren_core::book::{Edits, Expected, ThingEdit, Word};
use haulwren_core::id::{TermsId, ThingId, VenueId};
use haulwren_core::money::Money;
use haulwren_core::worth::Sells;

use super::fields::id;

/// All edits, each for a change of its own.
pub fn all() -> Vec<Edits> {
    let [low, likely, high] = [1800, 2600, 3400].map(Money::new);
    let judged = Expected {
        venue: VenueId(id(4)),
        terms: TermsId(id(5)),
        ask: Money::new(600),
        keep: Money::new(410),
        ceiling: None,
        verdict: Word::Haggle,
        card: None,
        rough: false,
        sells: Sells::new(Some(low), likely, Some(high)).ok(),
    };
    vec![ThingId(id(7)).edit([ThingEdit::Expected(Some(judged))])]
}
