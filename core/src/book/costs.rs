//! What each thing cost: derived from its lot, never stored.

use super::state::State;
use crate::id::{LotId, ThingId};
use crate::lot::shares;
use crate::money::Money;
use crate::worth::Sells;
use litemap::LiteMap;

impl State {
    /// What every thing cost: its share of its lot's price. A thing whose lot is not known is left out. One that stays because its
    /// removal is in dispute was still paid for, though its lot went without dispute.
    #[must_use]
    pub fn costs(&self) -> LiteMap<ThingId, Money> {
        let mut things: Vec<(LotId, ThingId, Option<Money>)> = Vec::new();
        for (id, thing) in self.things() {
            if let Some(lot) = thing.lot {
                things.push((lot, id, thing.sells.map(Sells::likely)));
            }
        }
        // Within a lot in the order in which they were weighed up, which is that of their ids.
        things.sort_unstable_by_key(|(lot, thing, _)| (*lot, *thing));
        let mut costs: Vec<(ThingId, Money)> = Vec::new();
        for mates in things.chunk_by(|one, next| one.0 == next.0) {
            let lot = self
                .tables
                .lots
                .get(&mates[0].0.0)
                .map(|entry| &entry.value);
            let Some(paid) = lot.and_then(|lot| lot.paid) else {
                continue;
            };
            let method = lot.and_then(|lot| lot.method).unwrap_or_default();
            let prices: Vec<Option<Money>> = mates.iter().map(|mate| mate.2).collect();
            let shares = shares(paid, method, &prices);
            costs.extend(mates.iter().map(|mate| mate.1).zip(shares));
        }
        costs.sort_unstable_by_key(|(thing, _)| *thing);
        let mut found = LiteMap::new();
        for (thing, cost) in costs {
            found.insert(thing, cost);
        }
        found
    }
}
