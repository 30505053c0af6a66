//! Stops of a trip, and the movements of its purse.

use super::super::checked::{check_amounts, checked_maybe, checked_name, checked_text};
use super::super::command::{Context, LONGEST_NOTE, StopSetup};
use super::super::kinds::{CashEdit, StopEdit, TripEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use super::trips::check_span;
use crate::id::{CashId, StopId, TripId};
use crate::ledger::Moved;
use crate::money::Money;

impl State {
    pub(super) fn next_stop(
        &self,
        stop: Option<StopId>,
        name: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_maybe(name)?;
        if let Some(id) = stop {
            let known = self.stop(id).ok_or(Refusal::NoStop)?;
            if known.arrived.is_some() {
                return Err(Refusal::BeenThere);
            }
        }
        let mut saved = Vec::new();
        let trip = if let Some((trip, _)) = self.open_trip() {
            trip
        } else {
            let (trip, started) = self.starting(None, None, context)?;
            saved.push(started);
            trip
        };
        saved.extend(self.leaving(context));
        let id = match (stop, self.open_stop()) {
            (Some(planned), _) => planned,
            // So that stops keep their order, whatever the clock says.
            (None, Some((before, _))) => StopId(context.fresh_after(before.0)),
            (None, None) => StopId(context.fresh()),
        };
        let mut edits = vec![
            StopEdit::Trip(Some(trip)),
            StopEdit::Arrived(Some(context.at)),
        ];
        if name.is_some() {
            edits.push(StopEdit::Name(name));
        }
        saved.push(id.edit(edits));
        self.all_new(saved)
    }

    /// The stop that a purchase is made at: where the trader is. Under way between two stops it is a new one, so that the purse knows of
    /// it. Its edits go to `saved`.
    pub(super) fn stop_here(
        &self,
        saved: &mut Vec<Edits>,
        context: &mut Context<'_>,
    ) -> Option<StopId> {
        if let Some((here, _)) = self.open_stop() {
            return Some(here);
        }
        let (trip, _) = self.open_trip()?;
        let id = StopId(context.fresh());
        saved.push(id.edit([
            StopEdit::Trip(Some(trip)),
            StopEdit::Arrived(Some(context.at)),
        ]));
        Some(id)
    }

    pub(super) fn plan_stop(
        &self,
        name: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(name)?;
        let mut saved = Vec::new();
        let trip = if let Some((trip, _)) = self.open_trip().or_else(|| self.planned_trip()) {
            trip
        } else {
            let trip = TripId(context.fresh());
            // The day of the plan, until it starts.
            let today = context.at.day().ok_or(Refusal::ClockOff)?;
            saved.push(trip.edit([TripEdit::Day(Some(today))]));
            trip
        };
        let stops = self.stops_of(trip);
        let places = stops.iter().filter_map(|(_, stop)| stop.planned);
        let place = places.max().map_or(1, |last| last.saturating_add(1));
        saved.push(StopId(context.fresh()).edit([
            StopEdit::Trip(Some(trip)),
            StopEdit::Name(Some(name)),
            StopEdit::Planned(Some(place)),
        ]));
        Ok(saved)
    }

    pub(super) fn save_stop(&self, id: StopId, setup: &StopSetup) -> Result<Vec<Edits>, Refusal> {
        self.stop(id).ok_or(Refusal::NoStop)?;
        check_span(setup.arrived, setup.left)?;
        if setup.manner.is_some_and(|manner| !manner.is_fit()) {
            return Err(Refusal::NoSuchTime);
        }
        self.all_new(vec![id.edit([
            StopEdit::Name(checked_maybe(&setup.name)?),
            StopEdit::Arrived(setup.arrived),
            StopEdit::Left(setup.left),
            StopEdit::Manner(setup.manner),
            StopEdit::Note(checked_text(&setup.note, LONGEST_NOTE)?),
            StopEdit::Premium(setup.premium.filter(|premium| !premium.is_zero())),
        ])])
    }

    pub(super) fn remove_stop(&self, id: StopId) -> Result<Vec<Edits>, Refusal> {
        self.stop(id).ok_or(Refusal::NoStop)?;
        if self.is_used(id) {
            return Err(Refusal::StopInUse);
        }
        Ok(vec![id.edit([StopEdit::Gone(true)])])
    }

    pub(super) fn move_cash(
        &self,
        what: Moved,
        amount: Money,
        note: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if what == Moved::Counted {
            return self.count_cash(amount, note, context);
        }
        check_amounts(&[amount])?;
        if amount.is_zero() {
            return Err(Refusal::NoAmount);
        }
        self.cash(what, what.signed(amount), None, note, context)
    }

    pub(super) fn count_cash(
        &self,
        counted: Money,
        note: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[counted])?;
        let (trip, _) = self.last_trip().ok_or(Refusal::NoTrip)?;
        let difference = counted.minus(self.purse(trip).left());
        self.cash(Moved::Counted, difference, Some(counted), note, context)
    }

    /// A movement, of the trip under way or else of the last one: cash is counted at home, too.
    fn cash(
        &self,
        what: Moved,
        amount: Money,
        counted: Option<Money>,
        note: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let (trip, _) = self.last_trip().ok_or(Refusal::NoTrip)?;
        let cash = CashId(context.fresh()).edit([
            CashEdit::Trip(Some(trip)),
            CashEdit::Stop(self.open_stop().map(|(stop, _)| stop)),
            CashEdit::What(Some(what)),
            CashEdit::Amount(Some(amount)),
            CashEdit::Counted(counted),
            CashEdit::At(Some(context.at)),
            CashEdit::Note(checked_text(note, LONGEST_NOTE)?),
        ]);
        Ok(vec![self.only_new(cash)])
    }

    pub(super) fn remove_cash(&self, id: CashId) -> Result<Vec<Edits>, Refusal> {
        let entry = self.tables.cash.get(&id.0);
        let is_there = entry.is_some_and(|entry| !entry.value.gone);
        if !is_there {
            return Err(Refusal::NoEntry);
        }
        Ok(vec![id.edit([CashEdit::Gone(true)])])
    }
}
