//! Trips: starting, ending, and what is said of them afterwards.

use super::super::checked::{check_amounts, checked_maybe, checked_text};
use super::super::command::{Context, LONGEST_NOTE, TripCommand, TripSetup};
use super::super::kinds::{CashEdit, RulesEdit, StopEdit, TripEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::id::{CashId, RulesId, TripId};
use crate::ledger::Moved;
use crate::measure::Distance;
use crate::money::Money;
use crate::stamp::At;

impl State {
    pub(super) fn on_trip(
        &self,
        command: &TripCommand,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        match command {
            TripCommand::StartTrip {
                name,
                took_out,
                odometer,
            } => self.start_trip(name, *took_out, *odometer, context),
            TripCommand::EndTrip { odometer, distance } => {
                self.end_trip(*odometer, *distance, context)
            }
            TripCommand::SaveTrip { id, setup } => self.save_trip(*id, setup),
            TripCommand::NextStop { stop, name } => self.next_stop(*stop, name, context),
            TripCommand::PlanStop { name } => self.plan_stop(name, context),
            TripCommand::SaveStop { id, setup } => self.save_stop(*id, setup),
            TripCommand::RemoveStop(id) => self.remove_stop(*id),
            TripCommand::MoveCash { what, amount, note } => {
                self.move_cash(*what, *amount, note, context)
            }
            TripCommand::CountCash(counted) => self.count_cash(*counted, "", context),
            TripCommand::RemoveCash(id) => self.remove_cash(*id),
            TripCommand::SetDistanceUnit(unit) => self.all_new(vec![
                RulesId::SINGLE.edit([RulesEdit::Distance(Some(*unit))]),
            ]),
        }
    }

    /// What makes a trip start now: the planned one, else a new one.
    pub(super) fn starting(
        &self,
        name: Option<String>,
        odometer: Option<u32>,
        context: &mut Context<'_>,
    ) -> Result<(TripId, Edits), Refusal> {
        let trip = match self.planned_trip() {
            Some((planned, _)) => planned,
            None => TripId(context.fresh()),
        };
        let mut edits = vec![
            TripEdit::Day(Some(context.at.day().ok_or(Refusal::ClockOff)?)),
            TripEdit::Started(Some(context.at)),
        ];
        if name.is_some() {
            edits.push(TripEdit::Name(name));
        }
        if odometer.is_some() {
            edits.push(TripEdit::OdometerOut(odometer));
        }
        Ok((trip, self.only_new(trip.edit(edits))))
    }

    fn start_trip(
        &self,
        name: &str,
        took_out: Option<Money>,
        odometer: Option<u32>,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if self.open_trip().is_some() {
            return Err(Refusal::TripOpen);
        }
        check_amounts(&[took_out.unwrap_or_default()])?;
        let (trip, started) = self.starting(checked_maybe(name)?, odometer, context)?;
        let mut edits = vec![started];
        if let Some(amount) = took_out.filter(|amount| !amount.is_zero()) {
            let cash = CashId(context.fresh()).edit([
                CashEdit::Trip(Some(trip)),
                CashEdit::What(Some(Moved::TookOut)),
                CashEdit::Amount(Some(amount)),
                CashEdit::At(Some(context.at)),
            ]);
            edits.push(cash);
        }
        Ok(edits)
    }

    fn end_trip(
        &self,
        odometer: Option<u32>,
        distance: Option<Distance>,
        context: &Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let (id, trip) = self.open_trip().ok_or(Refusal::NoTrip)?;
        check_odometer(trip.odometer_out, odometer)?;
        let mut edits = vec![TripEdit::Ended(Some(later(trip.started, context.at)))];
        if odometer.is_some() {
            edits.push(TripEdit::OdometerBack(odometer));
        }
        if distance.is_some() {
            edits.push(TripEdit::Distance(distance));
        }
        let mut saved = vec![id.edit(edits)];
        saved.extend(self.leaving(context));
        self.all_new(saved)
    }

    /// What leaves the stop where the trader is.
    pub(super) fn leaving(&self, context: &Context<'_>) -> Option<Edits> {
        let (id, stop) = self.open_stop()?;
        Some(id.edit([StopEdit::Left(Some(later(stop.arrived, context.at)))]))
    }

    fn save_trip(&self, id: TripId, setup: &TripSetup) -> Result<Vec<Edits>, Refusal> {
        self.trip(id).ok_or(Refusal::NoTrip)?;
        check_odometer(setup.odometer_out, setup.odometer_back)?;
        check_span(setup.started, setup.ended)?;
        let is_open = setup.started.is_some() && setup.ended.is_none();
        let other = self.open_trip().filter(|(open, _)| *open != id);
        if is_open && other.is_some() {
            return Err(Refusal::TripOpen);
        }
        self.all_new(vec![id.edit([
            TripEdit::Name(checked_maybe(&setup.name)?),
            TripEdit::Day(setup.day),
            TripEdit::Started(setup.started),
            TripEdit::Ended(setup.ended),
            TripEdit::Distance(setup.distance),
            TripEdit::OdometerOut(setup.odometer_out),
            TripEdit::OdometerBack(setup.odometer_back),
            TripEdit::Note(checked_text(&setup.note, LONGEST_NOTE)?),
        ])])
    }
}

/// The later of the two, for clocks that were set back.
fn later(first: Option<At>, now: At) -> At {
    match first {
        Some(first) if first.0 > now.0 => first,
        _ => now,
    }
}

fn check_odometer(out: Option<u32>, back: Option<u32>) -> Result<(), Refusal> {
    match (out, back) {
        (Some(out), Some(back)) if back < out => Err(Refusal::OdometerBack),
        _ => Ok(()),
    }
}

/// A beginning and an end: none without a beginning, and not before it; both within the calendar.
pub(super) fn check_span(first: Option<At>, last: Option<At>) -> Result<(), Refusal> {
    for at in [first, last].into_iter().flatten() {
        at.day().ok_or(Refusal::ClockOff)?;
    }
    match (first, last) {
        (Some(first), Some(last)) if last.0 >= first.0 => Ok(()),
        (_, None) => Ok(()),
        _ => Err(Refusal::EndsTooSoon),
    }
}
