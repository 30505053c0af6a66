//! Venues and their dated terms.

use super::super::checked::{check_amounts, checked_name};
use super::super::command::{Context, VenueSetup};
use super::super::kinds::{RulesEdit, TermsEdit, VenueEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::id::{RulesId, TermsId, VenueId};

impl State {
    pub(super) fn save_venue(
        &self,
        id: Option<VenueId>,
        setup: &VenueSetup,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(&setup.name)?;
        let amounts = [setup.postage, setup.packing, setup.usual.monthly];
        check_amounts(&amounts.map(Option::unwrap_or_default))?;
        setup.usual.regions.check()?;
        setup.schedule.check()?;
        setup.arrangement.check()?;
        if self
            .venues()
            .any(|(other, venue)| Some(other) != id && venue.name.as_deref() == Some(&name))
        {
            return Err(Refusal::NameTaken);
        }
        let edits = [
            VenueEdit::Name(Some(name)),
            VenueEdit::Arrangement(Some(setup.arrangement.clone())),
            VenueEdit::Postage(setup.postage),
            VenueEdit::Packing(setup.packing),
            VenueEdit::Promoted(setup.usual.promoted),
            VenueEdit::Regions(Some(setup.usual.regions.clone()).filter(|all| !all.is_empty())),
            VenueEdit::Monthly(setup.usual.monthly),
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

    pub(super) fn use_venue(&self, id: VenueId) -> Result<Vec<Edits>, Refusal> {
        self.venue(id).ok_or(Refusal::NoVenue)?;
        if self.usual_venue() == Some(id) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![
            RulesId::SINGLE.edit([RulesEdit::UsualVenue(Some(id))]),
        ])
    }

    pub(super) fn remove_venue(&self, id: VenueId) -> Result<Vec<Edits>, Refusal> {
        self.venue(id).ok_or(Refusal::NoVenue)?;
        Ok(vec![id.edit([VenueEdit::Gone(true)])])
    }
}
