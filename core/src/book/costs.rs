//! What each thing cost: derived from its lot and from the work put into it, never stored.

use super::index::Link;
use super::kinds::{Lot, Work};
use super::read::{one, there};
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
        let ids = self.tables.lots.keys();
        ids.filter_map(|id| self.shared_lot(LotId(*id))).collect()
    }

    /// The things of a lot, in the order in which they were weighed up, which is that of their ids.
    pub fn things_of(&self, lot: LotId) -> impl ExactSizeIterator<Item = ThingId> + '_ {
        let things = self.index.of(Link::LotThings, lot.0).iter();
        things.map(|id| ThingId(*id))
    }

    /// What was paid for a lot, extras included, where it counts (see [`State::lots`]).
    pub(super) fn total_of(&self, id: LotId) -> Option<Money> {
        let lot = &self.tables.lots.get(&id.0)?.value;
        let is_there = !lot.gone || self.things_of(id).len() > 0;
        let total = lot.paid?.plus(lot.extras.unwrap_or_default());
        is_there.then_some(total)
    }

    /// One lot, and how it is shared.
    #[must_use]
    pub fn shared_lot(&self, id: LotId) -> Option<SharedLot<'_>> {
        let total = self.total_of(id)?;
        let lot = &self.tables.lots.get(&id.0)?.value;
        let things: Vec<ThingId> = self.things_of(id).collect();
        let method = lot.method.unwrap_or_default();
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
        Some(SharedLot {
            id,
            lot,
            total,
            split: allocate(total, method, &pieces, unsorted),
            things,
        })
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
        let works = there(&self.tables.works);
        works.map(|(id, work)| self.shared_work(id, work)).collect()
    }

    /// The work put into a thing, oldest first.
    pub(super) fn works_on(&self, thing: ThingId) -> Vec<(&Work, SharedWork)> {
        let linked = self.index.of(Link::ThingWorked, thing.0).iter();
        let work = |id: &Uuid| one(&self.tables.worked, *id)?.work;
        let mut ids: Vec<WorkId> = linked.filter_map(work).collect();
        ids.sort_unstable();
        ids.dedup();
        let shared = |id: WorkId| {
            let work = one(&self.tables.works, id.0)?;
            Some((work, self.shared_work(id.0, work)))
        };
        ids.into_iter().filter_map(shared).collect()
    }

    fn shared_work(&self, id: Uuid, work: &Work) -> SharedWork {
        let linked = self.index.of(Link::WorkWorked, id).iter();
        let thing = |id: &Uuid| one(&self.tables.worked, *id)?.thing;
        let mut things: Vec<ThingId> = linked.filter_map(thing).collect();
        things.retain(|thing| self.thing(*thing).is_some());
        things.sort_unstable();
        things.dedup();
        let cost = work.cost.unwrap_or_default();
        let parts = split(cost, &vec![1; things.len()]);
        SharedWork {
            id: WorkId(id),
            cost,
            shares: things.into_iter().zip(parts).collect(),
        }
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

    /// What work cost some things, of those that some was put into.
    #[must_use]
    pub fn work_costs_of(&self, things: &[ThingId]) -> LiteMap<ThingId, Money> {
        let mut costs: Vec<(ThingId, Money)> = Vec::new();
        for thing in things {
            for (_, work) in self.works_on(*thing) {
                let of_it = work.shares.into_iter().filter(|(of, _)| of == thing);
                costs.extend(of_it);
            }
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
