//! Lots: bought unsorted and sorted later, how their price is shared, and what belongs to them.

use super::super::checked::{check_amounts, checked_maybe};
use super::super::command::{Bought, Context, LotCommand, MOST_THINGS, MOST_UNSORTED};
use super::super::kinds::{Lot, LotEdit, ThingEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::id::{LotId, ThingId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::money::Money;

impl State {
    pub(super) fn on_lot(
        &self,
        command: &LotCommand,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        match command {
            LotCommand::BuyUnsorted {
                count,
                paid,
                by,
                name,
            } => self.buy_unsorted(*count, *paid, *by, name, context),
            LotCommand::Sort { lot, things } => self.sort(*lot, things, context),
            LotCommand::SetUnsorted { lot, count } => {
                check_count(*count)?;
                self.set_lot(*lot, LotEdit::Unsorted((*count > 0).then_some(*count)))
            }
            LotCommand::SetMethod { lot, method } => self.set_method(*lot, *method),
            LotCommand::SetPaid { lot, paid } => {
                check_amounts(&[*paid])?;
                self.set_lot(*lot, LotEdit::Paid(Some(*paid)))
            }
            LotCommand::SetExtras { lot, extras } => {
                check_amounts(&[*extras])?;
                self.set_lot(
                    *lot,
                    LotEdit::Extras((!extras.is_zero()).then_some(*extras)),
                )
            }
            LotCommand::SetPaying { lot, by } => {
                self.set_lot(*lot, LotEdit::By((*by != Paying::Cash).then_some(*by)))
            }
            LotCommand::SetStop { lot, stop } => {
                if stop.is_some_and(|stop| self.stop(stop).is_none()) {
                    return Err(Refusal::NoStop);
                }
                self.set_lot(*lot, LotEdit::Stop(*stop))
            }
            LotCommand::NameLot { lot, name } => {
                self.set_lot(*lot, LotEdit::Name(checked_maybe(name)?))
            }
            LotCommand::Regroup { things, lot } => self.regroup(things, *lot),
        }
    }

    /// A lot that counts: one that was taken away does while a thing of it is there.
    pub(super) fn the_lot(&self, id: LotId) -> Result<&Lot, Refusal> {
        let lot = self.tables.lots.get(&id.0).map(|entry| &entry.value);
        lot.filter(|lot| !lot.gone || !self.mates(id).is_empty())
            .ok_or(Refusal::NoLot)
    }

    /// By hand starts from the shares that stand, and they are let go of when another way is chosen.
    fn set_method(&self, id: LotId, method: Method) -> Result<Vec<Edits>, Refusal> {
        let before = self.the_lot(id)?.method.unwrap_or_default();
        if before == method {
            return Err(Refusal::NoChange);
        }
        let mut saved = vec![id.edit([LotEdit::Method(Some(method))])];
        let shared = self.shared_lot(id);
        for (at, thing) in self.mates(id).into_iter().enumerate() {
            let share = shared.as_ref().and_then(|lot| lot.split.shares.get(at));
            let stands = share.filter(|share| !share.kept || share.fixed);
            if method == Method::ByHand {
                saved.push(thing.edit([ThingEdit::Share(stands.map(|share| share.amount))]));
            } else if before == Method::ByHand {
                saved.push(thing.edit([ThingEdit::Share(None)]));
            }
        }
        self.all_new(saved)
    }

    fn set_lot(&self, id: LotId, edit: LotEdit) -> Result<Vec<Edits>, Refusal> {
        self.the_lot(id)?;
        self.all_new(vec![id.edit([edit])])
    }

    fn buy_unsorted(
        &self,
        count: u16,
        paid: Money,
        by: Paying,
        name: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if count == 0 {
            return Err(Refusal::NoThings);
        }
        check_count(count)?;
        check_amounts(&[paid])?;
        let name = checked_maybe(name)?;
        let mut stops = Vec::new();
        let stop = self.stop_here(&mut stops, context);
        let lot = LotId(context.fresh()).edit([
            LotEdit::Paid(Some(paid)),
            LotEdit::Bought(Some(context.at)),
            LotEdit::Stop(stop),
            LotEdit::Unsorted(Some(count)),
            LotEdit::By((by != Paying::Cash).then_some(by)),
            LotEdit::Name(name),
        ]);
        let mut saved = vec![self.only_new(lot)];
        saved.append(&mut stops);
        Ok(saved)
    }

    fn sort(
        &self,
        id: LotId,
        things: &[Bought],
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let lot = self.the_lot(id)?;
        let unsorted = lot.unsorted.unwrap_or(0);
        if unsorted == 0 {
            return Err(Refusal::AllSorted);
        }
        if things.is_empty() {
            return Err(Refusal::NoThings);
        }
        let mates = self.mates(id);
        if mates.len() + things.len() > MOST_THINGS {
            return Err(Refusal::TooManyThings);
        }
        let sorted = u16::try_from(things.len()).unwrap_or(u16::MAX);
        let left = unsorted.saturating_sub(sorted);
        let mut saved = vec![id.edit([LotEdit::Unsorted((left > 0).then_some(left))])];
        self.add_things(id, mates.last().copied(), things, &mut saved, context)?;
        Ok(saved)
    }

    /// The things of a lot that are there, in order.
    pub(super) fn mates(&self, lot: LotId) -> Vec<ThingId> {
        self.things_of(lot).collect()
    }

    fn regroup(&self, things: &[ThingId], to: LotId) -> Result<Vec<Edits>, Refusal> {
        let target = self.the_lot(to)?;
        if things.is_empty() {
            return Err(Refusal::NoThings);
        }
        let mut moving: Vec<(Option<LotId>, ThingId)> = Vec::new();
        for id in things {
            let thing = self.thing(*id).ok_or(Refusal::NoThing)?;
            if thing.lot != Some(to) {
                moving.push((thing.lot, *id));
            }
        }
        moving.sort_unstable();
        moving.dedup();
        if self.mates(to).len() + moving.len() > MOST_THINGS {
            return Err(Refusal::TooManyThings);
        }
        let mut saved = Vec::new();
        let (mut paid, mut extras) = (target.paid, target.extras.unwrap_or_default());
        for of_lot in moving.chunk_by(|one, next| one.0 == next.0) {
            for (_, thing) in of_lot {
                saved.push(thing.edit([ThingEdit::Lot(Some(to))]));
            }
            let Some(from) = of_lot[0].0 else { continue };
            let Some(lot) = self.tables.lots.get(&from.0).map(|entry| &entry.value) else {
                continue;
            };
            let is_emptied = self.mates(from).len() == of_lot.len()
                && (lot.gone || lot.unsorted.unwrap_or(0) == 0);
            // Nothing is left of the lot, so its price goes with its things.
            if let Some(more) = lot.paid.filter(|_| is_emptied) {
                let on_top = lot.extras.unwrap_or_default();
                if !more.plus(on_top).is_zero() {
                    self.check_same_purse(lot, target)?;
                }
                paid = Some(paid.unwrap_or_default().plus(more));
                extras = extras.plus(on_top);
                saved.push(from.edit([LotEdit::Gone(true)]));
            }
        }
        check_amounts(&[paid.unwrap_or_default(), extras])?;
        saved.push(to.edit([
            LotEdit::Paid(paid),
            LotEdit::Extras((!extras.is_zero()).then_some(extras)),
        ]));
        self.all_new(saved)
    }

    fn check_same_purse(&self, one: &Lot, other: &Lot) -> Result<(), Refusal> {
        if one.by.unwrap_or_default() != other.by.unwrap_or_default() {
            Err(Refusal::OtherPaying)
        } else if self.trip_of(one) != self.trip_of(other) {
            Err(Refusal::OtherTrip)
        } else {
            Ok(())
        }
    }
}

fn check_count(count: u16) -> Result<(), Refusal> {
    if count > MOST_UNSORTED {
        Err(Refusal::TooManyUnsorted)
    } else {
        Ok(())
    }
}
