//! Buying, passing by, and what is said of a thing afterwards.

use super::super::checked::{check_amounts, checked_maybe, checked_name};
use super::super::command::{Bought, Context, LeftBehind, MOST_THINGS, Purchase};
use super::super::kinds::{LotEdit, PassedEdit, ThingEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::id::{LotId, PassedId, ThingId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::money::Money;

impl State {
    pub(super) fn buy(
        &self,
        purchase: &Purchase,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if purchase.things.is_empty() {
            return Err(Refusal::NoThings);
        }
        if purchase.things.len() > MOST_THINGS {
            return Err(Refusal::TooManyThings);
        }
        check_amounts(&[purchase.paid, purchase.extras])?;
        let mut stops = Vec::new();
        let stop = self.stop_here(&mut stops, context);
        let lot = LotId(context.fresh());
        let edits = lot.edit([
            LotEdit::Paid(Some(purchase.paid)),
            LotEdit::Bought(Some(context.at)),
            LotEdit::Stop(stop),
            LotEdit::Extras(Some(purchase.extras).filter(|extras| !extras.is_zero())),
            // A lot of one has nothing to share.
            LotEdit::Method((purchase.method != Method::Evenly).then_some(purchase.method)),
            LotEdit::By((purchase.by != Paying::Cash).then_some(purchase.by)),
        ]);
        let mut saved = vec![self.only_new(edits)];
        self.add_things(lot, None, &purchase.things, &mut saved, context)?;
        saved.append(&mut stops);
        Ok(saved)
    }

    /// Puts new things into a lot, after the last of those that are in it.
    pub(super) fn add_things(
        &self,
        lot: LotId,
        mut before: Option<ThingId>,
        things: &[Bought],
        saved: &mut Vec<Edits>,
        context: &mut Context<'_>,
    ) -> Result<(), Refusal> {
        for thing in things {
            // Things of a lot keep the order in which they were weighed up.
            let id = ThingId(match before {
                Some(before) => context.fresh_after(before.0),
                None => context.fresh(),
            });
            before = Some(id);
            saved.push(self.bought(id, lot, thing)?);
        }
        Ok(())
    }

    fn bought(&self, id: ThingId, lot: LotId, thing: &Bought) -> Result<Edits, Refusal> {
        check_amounts(&[
            thing.postage,
            thing.packing,
            thing.needs.unwrap_or_default(),
        ])?;
        let name = checked_maybe(&thing.name)?;
        Ok(self.only_new(id.edit([
            ThingEdit::Lot(Some(lot)),
            ThingEdit::Name(name),
            ThingEdit::Sells(thing.sells),
            ThingEdit::Postage(Some(thing.postage)),
            ThingEdit::Packing(Some(thing.packing)),
            ThingEdit::Expected(thing.expected.clone()),
            ThingEdit::Kind(thing.kind),
            ThingEdit::Weight(thing.weight),
            ThingEdit::Size(thing.size),
            ThingEdit::Needs(thing.needs.filter(|needs| !needs.is_zero())),
        ])))
    }

    pub(super) fn pass_by(
        &self,
        thing: &LeftBehind,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[thing.ask.unwrap_or(Money::ZERO)])?;
        let name = checked_maybe(&thing.name)?;
        if name.is_none() && thing.ask.is_none() && thing.sells.is_none() && thing.kind.is_none() {
            return Err(Refusal::NoChange);
        }
        let passed = PassedId(context.fresh()).edit([
            PassedEdit::Name(name),
            PassedEdit::Kind(thing.kind),
            PassedEdit::Ask(thing.ask),
            PassedEdit::Sells(thing.sells),
            PassedEdit::At(Some(context.at)),
            PassedEdit::Expected(thing.expected.clone()),
        ]);
        Ok(vec![self.only_new(passed)])
    }

    pub(super) fn rename(&self, thing: ThingId, name: &str) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(name)?;
        let known = self.thing(thing).ok_or(Refusal::NoThing)?;
        if known.name.as_ref() == Some(&name) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![thing.edit([ThingEdit::Name(Some(name))])])
    }

    pub(super) fn take_out(&self, thing: ThingId) -> Result<Vec<Edits>, Refusal> {
        let lot = self.thing(thing).ok_or(Refusal::NoThing)?.lot;
        let mut edits = vec![thing.edit([ThingEdit::Gone(true)])];
        let alone = |lot: &LotId| {
            let unsorted = self.lot(*lot).and_then(|lot| lot.unsorted);
            self.mates(*lot).len() <= 1 && unsorted.unwrap_or(0) == 0
        };
        if let Some(lot) = lot.filter(alone) {
            edits.push(lot.edit([LotEdit::Gone(true)]));
        }
        Ok(edits)
    }
}
