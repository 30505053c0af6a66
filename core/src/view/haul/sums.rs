//! What lots come to: spent, how many things, and what is kept of them as they stand now.

use crate::book::{Sales, SharedLot};
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
    /// What is kept of them as they stand now, the whole cushion set aside; without those not sorted yet, without an estimate, or kept for
    /// one's own use.
    pub keep: Money,
    /// The same if all of them sell: nothing set aside for what never sells.
    pub if_sold: Money,
    /// Of how many nothing tells what they will leave, so that they are not in `keep`.
    pub no_estimate: usize,
    /// How many are not sorted yet.
    pub unsorted: usize,
    /// What is on no thing; either sign.
    pub not_yet_shared: Money,
}

impl HaulSums {
    /// What a lot comes to. `work` is what work cost each thing.
    pub(in crate::view) fn of(
        sales: &Sales<'_>,
        lot: &SharedLot<'_>,
        work: &LiteMap<ThingId, Money>,
    ) -> Self {
        let unsorted = lot.split.unsorted.len();
        let mut sums = Self {
            spent: lot.total,
            things: lot.things.len() + unsorted,
            unsorted,
            not_yet_shared: lot.split.not_yet_shared,
            ..Self::default()
        };
        let now = sales.of_lot(lot, work);
        for (share, now) in lot.split.shares.iter().zip(now) {
            match now {
                Some(now) => {
                    sums.keep = sums.keep.plus(now.keep);
                    sums.if_sold = sums.if_sold.plus(now.if_sold);
                }
                None => sums.no_estimate += usize::from(!share.kept),
            }
        }
        sums
    }

    /// Takes in what others come to.
    pub(in crate::view) fn add(&mut self, more: &Self) {
        self.spent = self.spent.plus(more.spent);
        self.things += more.things;
        self.keep = self.keep.plus(more.keep);
        self.if_sold = self.if_sold.plus(more.if_sold);
        self.no_estimate += more.no_estimate;
        self.unsorted += more.unsorted;
        self.not_yet_shared = self.not_yet_shared.plus(more.not_yet_shared);
    }
}
