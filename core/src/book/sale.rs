//! What a sale of a thing would leave, on the venue that it was judged on: for lots shared by what is left, and for shares that can't even
//! pay their own postage.

use super::kinds::Thing;
use super::state::State;
use crate::appraise::{Case, Selling, Sums};
use crate::id::VenueId;
use crate::money::Money;
use crate::stamp::At;
use crate::worth::Sells;

/// A thing whose sale doesn't pay its own way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PostageShort {
    /// What it costs to post.
    pub postage: Money,
    /// What the sale would leave for that: what the venue pays out, less the packing.
    pub leaves: Money,
    /// On which venue.
    pub venue: VenueId,
}

impl State {
    /// What would be left of a thing's sale at its likely price before it is paid for, allowances set aside.
    ///
    /// What was expected when it was bought goes first: it was worked out from the parcel as it was weighed up, and it stands, so that
    /// no later change of rates moves what a thing cost. Only a thing that was bought without a verdict is worked out anew, by the terms of
    /// the day of the purchase.
    pub(super) fn before_purchase(&self, thing: &Thing, bought: Option<At>) -> Option<Money> {
        if let Some(expected) = &thing.expected {
            return Some(expected.keep.plus(expected.ask));
        }
        self.sale_of(thing, bought).map(|(_, sums)| sums.before)
    }

    /// The sums of a thing's sale at its likely price: on the venue and by the terms that it was judged by, else on the venue usual for its
    /// kind by the terms of the day of the purchase.
    fn sale_of(&self, thing: &Thing, bought: Option<At>) -> Option<(VenueId, Sums)> {
        let likely = thing.sells.map(Sells::likely)?;
        let kind = thing.kind.and_then(|id| self.kind(id));
        let judged = thing.expected.as_ref();
        let there = |id: &VenueId| self.venue(*id).is_some();
        let id = judged
            .map(|expected| expected.venue)
            .filter(there)
            .or_else(|| kind.as_ref()?.venue.filter(there))
            .or_else(|| self.usual_venue())?;
        let terms = judged
            .filter(|expected| expected.venue == id)
            .and_then(|expected| self.tables.terms.get(&expected.terms.0))
            .map(|entry| &entry.value);
        let terms = match terms {
            Some(terms) => terms,
            None => self.terms_on(id, bought?.day()?)?.1,
        };
        let arrangement = self.venue(id)?.arrangement.clone().unwrap_or_default();
        let currency = self.currency()?;
        let case = Case {
            currency,
            ask: None,
            sells: thing.sells,
            venue: Some(Selling {
                arrangement: &arrangement,
                schedule: terms.schedule.as_ref()?,
            }),
            postage: thing.postage,
            packing: thing.packing.unwrap_or_default(),
            weight: thing
                .weight
                .or_else(|| kind.as_ref().map(|kind| kind.piece.weight)),
            kind: thing.kind,
            allowances: self.allowances(),
            rules: self.house_rules(currency),
        };
        Some((id, Sums::at(&case, likely).ok()?))
    }

    /// Whether the sale of a thing at its likely price would not even pay for its own postage: what the venue pays out, less packing and
    /// postage, is under nothing. `bought` is when its lot was. `None` when it pays its way, or nothing tells.
    #[must_use]
    pub fn postage_short(&self, thing: &Thing, bought: Option<At>) -> Option<PostageShort> {
        let (venue, sums) = self.sale_of(thing, bought)?;
        let postage = sums.posting.out;
        let leaves = sums.settlement.payout.minus(sums.packing);
        (leaves < postage).then_some(PostageShort {
            postage,
            leaves,
            venue,
        })
    }
}
