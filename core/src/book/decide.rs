//! From a command to the edits that it comes to, or a refusal. Nothing is changed here.

use super::checked::{check_amounts, check_length, checked_name};
use super::command::{Command, Context, Purchase, Refusal, VenueSetup};
use super::kinds::{BookEdit, DeviceEdit, LotEdit, RulesEdit, TermsEdit, ThingEdit, VenueEdit};
use super::state::State;
use super::table::Edits;
use crate::appraise::HouseRules;
use crate::id::{BookId, DeviceId, LotId, RulesId, TermsId, ThingId, VenueId};
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
        // Ids, stamps and days all rest on the clock.
        context.at.day().ok_or(Refusal::ClockOff)?;
        if let Command::Begin { currency, device } = command {
            return self.begin(*currency, device, context);
        }
        let currency = self.currency().ok_or(Refusal::NotBegun)?;
        match command {
            Command::Begin { .. } => Err(Refusal::AlreadyBegun),
            Command::SetRules { rules, allowances } => self.set_rules(rules, allowances, currency),
            Command::SaveVenue { id, setup } => self.save_venue(*id, setup, context),
            Command::UseVenue(id) => self.use_venue(*id),
            Command::RemoveVenue(id) => self.remove_venue(*id),
            Command::Buy(purchase) => self.buy(purchase, context),
            Command::Rename { thing, name } => self.rename(*thing, name),
            Command::TakeOut(thing) => self.take_out(*thing),
        }
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
        ]);
        Ok(vec![self.only_new(edits)])
    }

    fn save_venue(
        &self,
        id: Option<VenueId>,
        setup: &VenueSetup,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(&setup.name)?;
        check_amounts(&[setup.postage, setup.packing])?;
        setup.schedule.check()?;
        if self
            .venues()
            .any(|(other, venue)| Some(other) != id && venue.name.as_deref() == Some(&name))
        {
            return Err(Refusal::NameTaken);
        }
        let edits = [
            VenueEdit::Name(Some(name)),
            VenueEdit::Arrangement(Some(setup.arrangement.clone())),
            VenueEdit::Postage(Some(setup.postage)),
            VenueEdit::Packing(Some(setup.packing)),
        ];
        let venue = match id {
            Some(id) if self.venue(id).is_none() => return Err(Refusal::NoVenue),
            Some(id) => id,
            None => VenueId(context.fresh()),
        };
        let mut saved = vec![self.only_new(venue.edit(edits))];
        saved.push(self.terms_edit(venue, setup, context)?);
        if self.usual_venue().is_none() {
            saved.push(RulesId::SINGLE.edit([RulesEdit::UsualVenue(Some(venue))]));
        }
        saved.retain(|edits| !edits.set.is_empty());
        if saved.is_empty() {
            return Err(Refusal::NoChange);
        }
        Ok(saved)
    }

    /// Unchanged charges are marked as checked today; changed ones become a new version, unless today's version is still unused.
    fn terms_edit(
        &self,
        venue: VenueId,
        setup: &VenueSetup,
        context: &mut Context<'_>,
    ) -> Result<Edits, Refusal> {
        let today = context.at.day().ok_or(Refusal::ClockOff)?;
        let schedule = || TermsEdit::Schedule(Some(setup.schedule.clone()));
        let edits = match self.terms_on(venue, today) {
            Some((id, terms)) if terms.schedule.as_ref() == Some(&setup.schedule) => {
                id.edit([TermsEdit::Checked(Some(today))])
            }
            Some((id, terms)) if terms.from == Some(today) && !self.terms_used(id) => {
                id.edit([schedule()])
            }
            found => {
                // Of two versions that start on one day the younger id holds: see `terms_on`.
                let id = match found {
                    Some((id, terms)) if terms.from == Some(today) => context.fresh_after(id.0),
                    _ => context.fresh(),
                };
                TermsId(id).edit([
                    TermsEdit::Venue(Some(venue)),
                    TermsEdit::From(Some(today)),
                    TermsEdit::Checked(Some(today)),
                    schedule(),
                ])
            }
        };
        Ok(self.only_new(edits))
    }

    fn use_venue(&self, id: VenueId) -> Result<Vec<Edits>, Refusal> {
        self.venue(id).ok_or(Refusal::NoVenue)?;
        if self.usual_venue() == Some(id) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![
            RulesId::SINGLE.edit([RulesEdit::UsualVenue(Some(id))]),
        ])
    }

    fn remove_venue(&self, id: VenueId) -> Result<Vec<Edits>, Refusal> {
        self.venue(id).ok_or(Refusal::NoVenue)?;
        Ok(vec![id.edit([VenueEdit::Gone(true)])])
    }

    fn buy(&self, purchase: &Purchase, context: &mut Context<'_>) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[purchase.paid, purchase.postage, purchase.packing])?;
        let name = purchase.name.trim();
        check_length(name)?;
        let lot = LotId(context.fresh());
        let lot_edits = [
            LotEdit::Paid(Some(purchase.paid)),
            LotEdit::Bought(Some(context.at)),
        ];
        let thing_edits = [
            ThingEdit::Lot(Some(lot)),
            ThingEdit::Name((!name.is_empty()).then(|| name.to_owned())),
            ThingEdit::Sells(purchase.sells),
            ThingEdit::Postage(Some(purchase.postage)),
            ThingEdit::Packing(Some(purchase.packing)),
            ThingEdit::Expected(purchase.expected.clone()),
        ];
        let thing = ThingId(context.fresh()).edit(thing_edits);
        Ok(vec![lot.edit(lot_edits), self.only_new(thing)])
    }

    fn rename(&self, thing: ThingId, name: &str) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(name)?;
        let known = self.thing(thing).ok_or(Refusal::NoThing)?;
        if known.name.as_ref() == Some(&name) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![thing.edit([ThingEdit::Name(Some(name))])])
    }

    fn take_out(&self, thing: ThingId) -> Result<Vec<Edits>, Refusal> {
        let lot = self.thing(thing).ok_or(Refusal::NoThing)?.lot;
        let mut edits = vec![thing.edit([ThingEdit::Gone(true)])];
        let alone = |lot: &LotId| {
            !self
                .things()
                .any(|(other, known)| other != thing && known.lot == Some(*lot))
        };
        if let Some(lot) = lot.filter(alone) {
            edits.push(lot.edit([LotEdit::Gone(true)]));
        }
        Ok(edits)
    }
}
