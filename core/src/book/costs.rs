//! What each thing cost: derived from its lot and from the work put into it, never stored.

use super::kinds::Lot;
use super::read::there;
use super::state::State;
use crate::id::{LotId, ThingId, WorkId};
use crate::lot::{Method, Piece, Split, allocate};
use crate::money::{Money, split};
use crate::worth::Sells;
use litemap::LiteMap;
use uuid::Uuid;

/// A lot, and how its price is shared over its things.
#[derive(Clone, Debug, PartialEq)]
pub struct SharedLot<'a> {
    /// Which.
    pub id: LotId,
    /// The lot.
    pub lot: &'a Lot,
    /// What was paid for it, and the extras.
    pub total: Money,
    /// Its things, in the order in which they were weighed up.
    pub things: Vec<ThingId>,
    /// The shares, of the things in that order.
    pub split: Split,
}

/// Work put into things, and what it cost each of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SharedWork {
    /// Which.
    pub id: WorkId,
    /// What it cost.
    pub cost: Money,
    /// What it cost each thing that is there, in the order of their ids. Empty when none is: then it is on no thing.
    pub shares: Vec<(ThingId, Money)>,
}

/// Where the money of all lots and all work is. `on_things + on_unsorted + not_yet_shared` is `paid + work`, exactly.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Reckoning {
    /// Paid for lots, extras included.
    pub paid: Money,
    /// Paid for work.
    pub work: Money,
    /// What the things cost.
    pub on_things: Money,
    /// What things that are not sorted yet cost.
    pub on_unsorted: Money,
    /// What is on no thing.
    pub not_yet_shared: Money,
}

impl State {
    /// The lots, oldest first, and how each is shared. One that was taken away counts while a thing of it is there: one that stays
    /// because its removal is in dispute was still paid for. A lot whose price this version cannot read is left out.
    #[must_use]
    pub fn lots(&self) -> Vec<SharedLot<'_>> {
        let mut of_lots: Vec<(LotId, ThingId)> = Vec::new();
        for (id, thing) in self.things() {
            if let Some(lot) = thing.lot {
                of_lots.push((lot, id));
            }
        }
        // Within a lot in the order in which they were weighed up, which is that of their ids.
        of_lots.sort_unstable();
        let mut lots: Vec<SharedLot<'_>> = Vec::new();
        for (id, entry) in self.tables.lots.iter() {
            let (id, lot) = (LotId(*id), &entry.value);
            let from = of_lots.partition_point(|(of, _)| *of < id);
            let to = of_lots.partition_point(|(of, _)| *of <= id);
            let mates = &of_lots[from..to];
            if lot.gone && mates.is_empty() {
                continue;
            }
            if let Some(paid) = lot.paid {
                let things = mates.iter().map(|(_, thing)| *thing).collect();
                lots.push(self.shared(id, lot, paid, things));
            }
        }
        lots
    }

    /// One lot, and how it is shared.
    #[must_use]
    pub fn shared_lot(&self, id: LotId) -> Option<SharedLot<'_>> {
        let lot = &self.tables.lots.get(&id.0)?.value;
        let mut things: Vec<ThingId> = Vec::new();
        for (thing, known) in self.things() {
            if known.lot == Some(id) {
                things.push(thing);
            }
        }
        let is_there = !lot.gone || !things.is_empty();
        is_there.then_some(self.shared(id, lot, lot.paid?, things))
    }

    fn shared<'a>(
        &'a self,
        id: LotId,
        lot: &'a Lot,
        paid: Money,
        things: Vec<ThingId>,
    ) -> SharedLot<'a> {
        let method = lot.method.unwrap_or_default();
        let total = paid.plus(lot.extras.unwrap_or_default());
        let mut pieces: Vec<Piece> = Vec::with_capacity(things.len());
        for thing in &things {
            pieces.push(self.piece(*thing, method, lot));
        }
        // What is not sorted went with its lot.
        let unsorted = if lot.gone {
            0
        } else {
            lot.unsorted.unwrap_or(0)
        };
        SharedLot {
            id,
            lot,
            total,
            split: allocate(total, method, &pieces, unsorted),
            things,
        }
    }

    /// What a thing's share goes by.
    fn piece(&self, id: ThingId, method: Method, lot: &Lot) -> Piece {
        let Some(thing) = self.thing(id) else {
            return Piece::default();
        };
        let of_kind = || Some(self.kind(thing.kind?)?.piece.weight);
        let judged = thing.expected.as_ref().and_then(|expected| expected.sells);
        Piece {
            // What was judged stands, so that a new price at home moves no cost.
            price: judged.or(thing.sells).map(Sells::likely),
            keep: (method == Method::ByKeep)
                .then(|| self.before_purchase(thing, lot.bought))
                .flatten(),
            weight: match method {
                Method::ByWeight => thing.weight.or_else(of_kind),
                _ => None,
            },
            fixed: thing.share,
            kept: thing.kept == Some(true),
        }
    }

    /// The work put into things, oldest first.
    #[must_use]
    pub fn works(&self) -> Vec<SharedWork> {
        let mut worked: Vec<(Uuid, ThingId)> = Vec::new();
        for (_, one) in there(&self.tables.worked) {
            if let (Some(work), Some(thing)) = (one.work, one.thing)
                && self.thing(thing).is_some()
            {
                worked.push((work.0, thing));
            }
        }
        worked.sort_unstable();
        worked.dedup();
        let mut works: Vec<SharedWork> = Vec::new();
        for (id, work) in there(&self.tables.works) {
            let cost = work.cost.unwrap_or_default();
            let mut things: Vec<ThingId> = Vec::new();
            for (of, thing) in &worked {
                if *of == id {
                    things.push(*thing);
                }
            }
            let parts = split(cost, &vec![1; things.len()]);
            works.push(SharedWork {
                id: WorkId(id),
                cost,
                shares: things.into_iter().zip(parts).collect(),
            });
        }
        works
    }

    /// What every thing cost: its share of its lot, and of the work put into it. A thing of which neither is known is left out.
    #[must_use]
    pub fn costs(&self) -> LiteMap<ThingId, Money> {
        let mut costs: Vec<(ThingId, Money)> = Vec::new();
        for lot in self.lots() {
            for (thing, share) in lot.things.iter().zip(&lot.split.shares) {
                costs.push((*thing, share.amount));
            }
        }
        for work in self.works() {
            costs.extend(work.shares);
        }
        summed(costs)
    }

    /// What work cost every thing that some was put into.
    #[must_use]
    pub fn work_costs(&self) -> LiteMap<ThingId, Money> {
        let mut costs: Vec<(ThingId, Money)> = Vec::new();
        for work in self.works() {
            costs.extend(work.shares);
        }
        summed(costs)
    }

    /// Where the money of all lots and all work is.
    #[must_use]
    pub fn reckoning(&self) -> Reckoning {
        let mut sum = Reckoning::default();
        let add = |to: &mut Money, more: Money| *to = to.plus(more);
        for lot in self.lots() {
            add(&mut sum.paid, lot.total);
            add(&mut sum.on_things, lot.split.on_things());
            add(&mut sum.on_unsorted, lot.split.on_unsorted());
            add(&mut sum.not_yet_shared, lot.split.not_yet_shared);
        }
        for work in self.works() {
            let on_things: Money = work.shares.iter().map(|(_, share)| share).sum();
            add(&mut sum.work, work.cost);
            add(&mut sum.on_things, on_things);
            add(&mut sum.not_yet_shared, work.cost.minus(on_things));
        }
        sum
    }
}

/// The sum for each thing.
fn summed(mut costs: Vec<(ThingId, Money)>) -> LiteMap<ThingId, Money> {
    costs.sort_unstable_by_key(|(thing, _)| *thing);
    let mut found = LiteMap::new();
    for of_one in costs.chunk_by(|one, next| one.0 == next.0) {
        found.insert(of_one[0].0, of_one.iter().map(|(_, cost)| cost).sum());
    }
    found
}
