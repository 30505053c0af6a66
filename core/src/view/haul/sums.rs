//! What lots come to: spent, how many things, and what is kept of them if they all sell.

use crate::book::{SharedLot, State};
use crate::id::ThingId;
use crate::money::Money;
use litemap::LiteMap;

/// What some lots come to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct HaulSums {
    /// Paid for them, extras included.
    pub spent: Money,
    /// How many things they are, those not sorted yet included.
    pub things: usize,
    /// What is kept if all of them sell as they were judged, without those not sorted yet, not judged, or kept for one's own use.
    pub keep: Money,
    /// How many were bought without a verdict, and so are not in `keep`.
    pub unjudged: usize,
    /// How many are not sorted yet.
    pub unsorted: usize,
    /// What is on no thing; either sign.
    pub not_yet_shared: Money,
}

impl HaulSums {
    /// Takes in a lot. `work` is what work cost each thing.
    pub(in crate::view) fn add(
        &mut self,
        state: &State,
        lot: &SharedLot<'_>,
        work: &LiteMap<ThingId, Money>,
    ) {
        let unsorted = lot.split.unsorted.len();
        self.spent = self.spent.plus(lot.total);
        self.things += lot.things.len() + unsorted;
        self.unsorted += unsorted;
        self.not_yet_shared = self.not_yet_shared.plus(lot.split.not_yet_shared);
        for (id, share) in lot.things.iter().zip(&lot.split.shares) {
            if share.kept {
                continue;
            }
            let expected = state.thing(*id).and_then(|thing| thing.expected.as_ref());
            let Some(expected) = expected else {
                self.unjudged += 1;
                continue;
            };
            // It was judged at what was asked for it; it cost its share, and the work.
            let before = expected.keep.plus(expected.ask);
            let work = work.get(id).copied().unwrap_or_default();
            self.keep = self.keep.plus(before.minus(share.amount).minus(work));
        }
    }
}
