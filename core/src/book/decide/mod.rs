//! From a command to the edits that it comes to, or a refusal. Nothing is changed here.

mod buying;
mod lots;
mod postage;
mod settling;
mod stops;
mod things;
mod trips;
mod venues;

use super::checked::checked_name;
use super::command::{Command, Context};
use super::kinds::{BookEdit, DeviceEdit, RulesEdit};
use super::refusal::Refusal;
use super::state::State;
use super::table::Edits;
use crate::appraise::HouseRules;
use crate::id::{BookId, DeviceId, RulesId};
use crate::measure::System;
use crate::money::Currency;
use crate::worth::Allowances;

impl State {
    /// What a command changes.
    ///
    /// # Errors
    /// The reason why the book will not do it, as a sentence.
    pub fn decide(
        &self,
        command: &Command,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if let Some(decided) = self.decide_at_once(command, context) {
            return decided;
        }
        self.currency().ok_or(Refusal::NotBegun)?;
        match command {
            Command::NameDevice(name) => self.name_device(name, context),
            Command::OneBook { stays, device } => self.one_book(*stays, device, context),
            Command::Join { joining, device } => self.join(joining, device, context),
            Command::Settle {
                record,
                field,
                choice,
                value,
            } => self.settle(record, field, *choice, value),
            Command::GoBack { record, set } => self.go_back(record, set),
            Command::OneDevice(code) => self.one_device(*code),
            Command::SaveVenue { id, setup } => self.save_venue(*id, setup, context),
            Command::UseVenue(id) => self.use_venue(*id),
            Command::RemoveVenue(id) => self.remove_venue(*id),
            Command::SaveCard { id, card } => self.save_card(*id, card, context),
            Command::UseCard(id) => self.use_card(*id),
            Command::RemoveCard(id) => self.remove_card(*id),
            Command::SaveContainer { id, container } => {
                self.save_container(*id, container, context)
            }
            Command::RemoveContainer(id) => self.remove_container(*id),
            Command::SaveKind { id, kind } => self.save_kind(*id, kind, context),
            Command::RemoveKind(id) => self.remove_kind(*id),
            Command::Rename { thing, name } => self.rename(*thing, name),
            Command::TakeOut(thing) => self.take_out(*thing),
            Command::Trip(command) => self.on_trip(command, context),
            Command::Lot(command) => self.on_lot(command, context),
            Command::Thing(command) => self.on_thing(command, context),
            Command::Begin { .. }
            | Command::SetRules { .. }
            | Command::UseUnits(_)
            | Command::Buy(_)
            | Command::PassBy(_) => Err(Refusal::NoChange),
        }
    }

    /// The same for the few commands that beginning a book and the table need: what only the others need can then be served later. `None` for
    /// any other command.
    pub fn decide_at_once(
        &self,
        command: &Command,
        context: &mut Context<'_>,
    ) -> Option<Result<Vec<Edits>, Refusal>> {
        // Ids, stamps and days all rest on the clock.
        if context.at.day().is_none() {
            return Some(Err(Refusal::ClockOff));
        }
        if let Command::Begin { currency, device } = command {
            return Some(self.begin(*currency, device, context));
        }
        let Some(currency) = self.currency() else {
            return Some(Err(Refusal::NotBegun));
        };
        Some(match command {
            Command::SetRules { rules, allowances } => self.set_rules(rules, allowances, currency),
            Command::UseUnits(units) => self.use_units(*units),
            Command::Buy(purchase) => self.buy(purchase, context),
            Command::PassBy(thing) => self.pass_by(thing, context),
            _ => return None,
        })
    }

    fn begin(
        &self,
        currency: Currency,
        device: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if self.currency().is_some() {
            return Err(Refusal::AlreadyBegun);
        }
        let device = checked_name(device)?;
        Ok(vec![
            BookId(context.fresh()).edit([BookEdit::Currency(Some(currency))]),
            DeviceId(context.fresh()).edit([
                DeviceEdit::Code(Some(self.me)),
                DeviceEdit::Name(Some(device)),
            ]),
        ])
    }

    fn name_device(&self, name: &str, context: &mut Context<'_>) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(name)?;
        let known = self.device(self.me);
        if known.is_some_and(|(_, device)| device.name.as_ref() == Some(&name)) {
            return Err(Refusal::NoChange);
        }
        let id = known.map_or_else(|| DeviceId(context.fresh()), |(id, _)| id);
        let edits = id.edit([
            DeviceEdit::Code(Some(self.me)),
            DeviceEdit::Name(Some(name)),
        ]);
        Ok(vec![self.only_new(edits)])
    }

    fn use_units(&self, units: System) -> Result<Vec<Edits>, Refusal> {
        if units == self.units() {
            return Err(Refusal::NoChange);
        }
        Ok(vec![RulesId::SINGLE.edit([RulesEdit::Units(Some(units))])])
    }

    fn set_rules(
        &self,
        rules: &HouseRules,
        allowances: &Allowances,
        currency: Currency,
    ) -> Result<Vec<Edits>, Refusal> {
        rules.check()?;
        allowances.check()?;
        if *rules == self.house_rules(currency) && *allowances == self.allowances() {
            return Err(Refusal::NoChange);
        }
        // A rule that is switched off stands as a least keep that is not set, beside other fields that are.
        let edits = RulesId::SINGLE.edit([
            RulesEdit::LeastKeep(rules.least_keep),
            RulesEdit::NoLossIfLow(Some(rules.no_loss_if_low)),
            RulesEdit::CashStep(Some(rules.cash_step)),
            RulesEdit::Reach(Some(rules.reach)),
            RulesEdit::Unsold(Some(allowances.unsold)),
            RulesEdit::Offers(Some(allowances.offers)),
            RulesEdit::Returns(Some(allowances.returns)),
            RulesEdit::LeastMultiple(rules.least_multiple),
            RulesEdit::LongestWait(rules.longest_wait),
            RulesEdit::Hourly(rules.hourly),
        ]);
        Ok(vec![self.only_new(edits)])
    }
}
