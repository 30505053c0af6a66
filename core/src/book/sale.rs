//! What a sale of a thing would leave, on the venue that it was judged on: as it stands now, for lots shared by what is left, and for shares
//! that can't even pay their own postage.

use super::costs::SharedLot;
use super::kinds::Thing;
use super::read_postage::KnownKind;
use super::state::State;
use crate::appraise::{Case, Selling, Sums};
use crate::id::{ThingId, VenueId};
use crate::money::{Money, Rate};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::{Schedule, Usual};
use crate::worth::{Allowance, Sells};
use litemap::LiteMap;

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
        let kind = thing.kind.and_then(|id| self.kind(id));
        let id = self.venue_for(thing, kind.as_ref())?;
        let judged = thing.expected.as_ref();
        let terms = judged
            .filter(|expected| expected.venue == id)
            .and_then(|expected| self.tables.terms.get(&expected.terms.0))
            .map(|entry| &entry.value);
        let terms = match terms {
            Some(terms) => terms,
            None => self.terms_on(id, bought?.day()?)?.1,
        };
        let arrangement = self.venue(id)?.arrangement.clone().unwrap_or_default();
        let usual = self.usual_of(id);
        let selling = Selling {
            arrangement: &arrangement,
            schedule: terms.schedule.as_ref()?,
            usual: &usual,
        };
        Some((id, self.sums_at(thing, kind.as_ref(), selling)?))
    }

    /// Where a thing is to be sold: where it was judged, else on the venue usual for its kind, else on the usual one.
    pub(crate) fn venue_for(&self, thing: &Thing, kind: Option<&KnownKind>) -> Option<VenueId> {
        let there = |id: &VenueId| self.venue(*id).is_some();
        let judged = thing.expected.as_ref().map(|expected| expected.venue);
        judged
            .filter(there)
            .or_else(|| kind?.venue.filter(there))
            .or_else(|| self.usual_venue())
    }

    /// The sums of a thing's sale at its likely price.
    fn sums_at(
        &self,
        thing: &Thing,
        kind: Option<&KnownKind>,
        selling: Selling<'_>,
    ) -> Option<Sums> {
        let likely = thing.sells.map(Sells::likely)?;
        let currency = self.currency()?;
        let case = Case {
            currency,
            ask: None,
            sells: thing.sells,
            venue: Some(selling),
            postage: thing.postage,
            packing: thing.packing.unwrap_or_default(),
            work: Money::ZERO,
            premium: Rate::ZERO,
            weight: thing.weight.or_else(|| kind.map(|kind| kind.piece.weight)),
            kind: thing.kind,
            allowances: self.allowances(),
            rules: self.house_rules(currency),
        };
        Sums::at(&case, likely).ok()
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

/// What you keep of a thing as it stands now: its cost as it is shared now, the price that it sells for now, the terms that its venue has now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct KeepNow {
    /// The whole cushion set aside, as the verdict had it.
    pub keep: Money,
    /// The same if it does sell: nothing set aside for what never sells.
    pub if_sold: Money,
}

/// A venue, and how it sells now.
struct SellsNow<'a> {
    id: VenueId,
    arrangement: Arrangement,
    schedule: &'a Schedule,
    usual: Usual,
}

/// What things stand for now. What is looked up for one serves all.
pub struct Sales<'a> {
    state: &'a State,
    kinds: Vec<KnownKind>,
    venues: Vec<SellsNow<'a>>,
}

impl<'a> Sales<'a> {
    /// Looks up kinds, venues and their newest terms.
    #[must_use]
    pub fn of(state: &'a State) -> Self {
        let mut venues = Vec::new();
        for (id, venue) in state.venues() {
            let terms = state.newest_terms(id);
            if let Some(schedule) = terms.and_then(|terms| terms.schedule.as_ref()) {
                venues.push(SellsNow {
                    id,
                    arrangement: venue.arrangement.clone().unwrap_or_default(),
                    schedule,
                    usual: state.usual_of(id),
                });
            }
        }
        Self {
            state,
            kinds: state.kinds(),
            venues,
        }
    }

    /// What you keep of each thing of a lot now, in their order. `work` is what work cost each thing. `None` for one that you keep for
    /// yourself, and while nothing tells. This is the one sum that the pages, the totals and the table are taken from.
    #[must_use]
    pub fn of_lot(
        &self,
        lot: &SharedLot<'_>,
        work: &LiteMap<ThingId, Money>,
    ) -> Vec<Option<KeepNow>> {
        let mut found = Vec::with_capacity(lot.things.len());
        for (id, share) in lot.things.iter().zip(&lot.split.shares) {
            let thing = self.state.thing(*id).filter(|_| !share.kept);
            let sums = thing.and_then(|thing| self.sums(thing));
            let work = work.get(id).copied().unwrap_or_default();
            found.push(sums.map(|sums| {
                let keep = sums.keep(share.amount.plus(work));
                KeepNow {
                    keep,
                    if_sold: keep.plus(sums.aside.of(Allowance::Unsold)),
                }
            }));
        }
        found
    }

    /// What you keep of one thing now.
    #[must_use]
    pub fn of_thing(&self, id: ThingId) -> Option<KeepNow> {
        let lot = self.state.shared_lot(self.state.thing(id)?.lot?)?;
        let at = lot.things.iter().position(|one| *one == id)?;
        let work = self.state.work_costs_of(&[id]);
        self.of_lot(&lot, &work).get(at).copied().flatten()
    }

    fn sums(&self, thing: &Thing) -> Option<Sums> {
        let kind = self.kinds.iter().find(|kind| Some(kind.id) == thing.kind);
        let id = self.state.venue_for(thing, kind)?;
        let venue = self.venues.iter().find(|venue| venue.id == id)?;
        let selling = Selling {
            arrangement: &venue.arrangement,
            schedule: venue.schedule,
            usual: &venue.usual,
        };
        self.state.sums_at(thing, kind, selling)
    }
}
