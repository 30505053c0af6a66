//! What is typed, held against one venue after the other.

use std::rc::Rc;

use super::posted::Posted;
use super::sending::{Packing, Sending};
use super::typed::{Typed, read};
use crate::appraise::{Appraisal, Case, HouseRules, Selling, appraise};
use crate::book::State;
use crate::day::Day;
use crate::id::{TermsId, VenueId};
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::stale;
use crate::view::DecideDraft;
use crate::worth::Allowances;

/// What a venue makes of what is typed.
pub(super) struct AtVenue {
    pub arrangement: Arrangement,
    pub posted: Posted,
    pub terms: Option<TermsId>,
    /// For how many days nobody looked whether the terms still hold, when that is long.
    pub stale: Option<u32>,
}

/// What is typed, and what stays the same from venue to venue.
pub(super) struct Desk<'a> {
    pub state: &'a State,
    pub typed: Typed,
    pub packing: Rc<Packing>,
    pub currency: Currency,
    pub today: Day,
    pub allowances: Allowances,
    pub rules: HouseRules,
    /// Buyer's premium of the stop where the trader is.
    pub premium: Rate,
    /// Whether the thing is promoted, when said of it alone.
    pub promoted: Option<bool>,
}

impl<'a> Desk<'a> {
    pub(super) fn of(state: &'a State, draft: &DecideDraft, now: At) -> Option<Self> {
        let sending = Sending::of(state, draft.kind, draft.heft);
        Self::by(state, &sending, draft, now)
    }

    /// The same, where it is known how the thing would be sent.
    pub(super) fn by(
        state: &'a State,
        sending: &Sending,
        draft: &DecideDraft,
        now: At,
    ) -> Option<Self> {
        let currency = state.currency()?;
        Some(Self {
            state,
            typed: read(draft, currency),
            packing: Rc::clone(&sending.0),
            currency,
            today: now.day()?,
            allowances: state.allowances(),
            premium: state.premium_here(),
            promoted: draft.promoted,
            rules: HouseRules {
                // How far sellers come down is said of the stop where the trader is, else by the rules.
                reach: state.reach(now, currency),
                ..state.house_rules(currency)
            },
        })
    }

    /// The appraisal on a venue.
    pub(super) fn at(&self, venue: Option<VenueId>) -> (AtVenue, Appraisal) {
        let mut appraisal = Appraisal::default();
        let here = self.case_at(venue, &mut |case| appraisal = appraise(case));
        (here, appraisal)
    }

    /// What a venue makes of what is typed; the case is handed to `judge`.
    fn case_at(&self, venue: Option<VenueId>, judge: &mut dyn FnMut(&Case<'_>)) -> AtVenue {
        let (state, typed) = (self.state, &self.typed);
        let known = venue.and_then(|id| state.venue(id));
        let terms = venue.and_then(|id| state.terms_on(id, self.today));
        let arrangement = known
            .and_then(|venue| venue.arrangement.clone())
            .unwrap_or_default();
        let posted = venue
            .map(|id| self.packing.sent(state, typed, id, self.today))
            .unwrap_or_default();
        let schedule = terms.and_then(|(_, terms)| terms.schedule.as_ref());
        let mut usual = venue.map(|id| state.usual_of(id)).unwrap_or_default();
        usual.promoted = self.promoted.or(usual.promoted);
        // Where the buyer pays what it costs, not knowing it is only rough. Who pays it out of the price has to say it first.
        let is_at_cost = matches!(arrangement, Arrangement::BuyerAtCost) && posted.unsaid.postage;
        let at_cost = is_at_cost.then_some(Money::ZERO);
        judge(&Case {
            currency: self.currency,
            ask: typed.ask,
            sells: typed.sells,
            venue: schedule.map(|schedule| Selling {
                arrangement: &arrangement,
                schedule,
                usual: &usual,
            }),
            postage: posted.postage.or(at_cost),
            packing: posted.packing,
            work: typed.work.unwrap_or_default(),
            premium: self.premium,
            weight: posted.weight,
            kind: self.packing.what.kind.as_ref().map(|kind| kind.id),
            allowances: self.allowances,
            rules: self.rules,
        });
        let checked = terms.and_then(|(_, terms)| terms.checked);
        AtVenue {
            arrangement,
            posted,
            terms: terms.map(|(id, _)| id),
            stale: checked.and_then(|checked| stale(checked, self.today)),
        }
    }

    /// The venue to judge on: the one chosen for this thing alone, else that of every new thing of its kind.
    pub(super) fn judged_venue(&self, draft: &DecideDraft) -> Option<VenueId> {
        let there = |id: &VenueId| self.state.venue(*id).is_some();
        draft.venue.filter(there).or_else(|| self.usual_venue())
    }

    /// The venue that a new thing is judged on: the one usual for the kind, else the usual one.
    pub(super) fn usual_venue(&self) -> Option<VenueId> {
        let of_kind = self.packing.what.kind.as_ref().and_then(|kind| kind.venue);
        let there = |id: &VenueId| self.state.venue(*id).is_some();
        of_kind.filter(there).or_else(|| self.state.usual_venue())
    }
}
