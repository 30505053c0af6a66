//! Decide: the verdict on what is typed, on the judged venue and on the others.

mod posted;
mod typed;

pub use posted::Posted;

use super::draft::{DecideDraft, Field};
use crate::appraise::{Appraisal, Case, HouseRules, Judged, Selling, Verdict, appraise};
use crate::book::{Bought, Expected, LeftBehind, Purchase, State, Word};
use crate::day::Day;
use crate::id::{TermsId, VenueId};
use crate::ledger::Paying;
use crate::money::{Currency, Money};
use crate::packing::{Caution, cautions};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::stale;
use crate::worth::{Allowances, Sells};
use posted::Packing;
use typed::{Typed, read};

/// What Decide shows.
#[derive(Clone, Debug, PartialEq)]
pub struct DecideView {
    /// The book's currency.
    pub currency: Currency,
    /// What is wrong with what is typed, field by field, as sentences.
    pub faults: Vec<(Field, String)>,
    /// The venue that is judged on.
    pub judged: Option<VenueId>,
    /// The appraisal there.
    pub appraisal: Appraisal,
    /// Postage in use, typed or usual; none where things are handed over.
    pub postage: Option<Money>,
    /// Packing in use, typed or usual.
    pub packing: Money,
    /// How it would be packed and posted.
    pub posted: Posted,
    /// Whether the verdict rests on rough figures.
    pub rough: bool,
    /// Says so when rates are old.
    pub stale: Option<String>,
    /// The kind that was chosen.
    pub kind: Option<String>,
    /// What to beware of, as sentences.
    pub cautions: Vec<&'static str>,
    /// Every venue, best first.
    pub venues: Vec<VenueCard>,
    /// The ask, when Buy can be pressed.
    pub buy: Option<Money>,
}

/// One venue beside the others.
#[derive(Clone, Debug, PartialEq)]
pub struct VenueCard {
    /// Which.
    pub id: VenueId,
    /// Its name.
    pub name: String,
    /// Who pays the postage there.
    pub arrangement: Arrangement,
    /// The postage that the buyer pays there.
    pub post_in: Money,
    /// What is kept there at the likely price, when it can be told.
    pub keep: Option<Money>,
    /// Whether it is the one judged on.
    pub judged: bool,
}

/// What a venue makes of what is typed.
struct AtVenue {
    arrangement: Arrangement,
    posted: Posted,
    terms: Option<TermsId>,
    /// For how many days nobody looked whether the terms still hold, when that is long.
    stale: Option<u32>,
    appraisal: Appraisal,
}

/// What is typed, and what stays the same from venue to venue.
struct Desk<'a> {
    state: &'a State,
    typed: Typed,
    packing: Packing,
    currency: Currency,
    today: Day,
    allowances: Allowances,
    rules: HouseRules,
}

impl<'a> Desk<'a> {
    fn of(state: &'a State, draft: &DecideDraft, now: At) -> Option<Self> {
        let currency = state.currency()?;
        Some(Self {
            state,
            typed: read(draft, currency),
            packing: Packing::of(state, draft),
            currency,
            today: now.day()?,
            allowances: state.allowances(),
            rules: HouseRules {
                // How far sellers come down is said of the stop where the trader is, else by the rules.
                reach: state.reach(now, currency),
                ..state.house_rules(currency)
            },
        })
    }

    fn at(&self, venue: Option<VenueId>) -> AtVenue {
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
        let appraisal = appraise(&Case {
            currency: self.currency,
            ask: typed.ask,
            sells: typed.sells,
            venue: schedule.map(|schedule| Selling {
                arrangement: &arrangement,
                schedule,
            }),
            postage: posted.postage,
            packing: posted.packing,
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
            appraisal,
        }
    }

    /// The venue to judge on: the chosen one, else the one usual for the kind, else the usual one.
    fn judged_venue(&self, draft: &DecideDraft) -> Option<VenueId> {
        let of_kind = self.packing.what.kind.as_ref().and_then(|kind| kind.venue);
        let there = |id: &VenueId| self.state.venue(*id).is_some();
        draft
            .venue
            .filter(there)
            .or_else(|| of_kind.filter(there))
            .or_else(|| self.state.usual_venue())
    }
}

/// Works Decide out. `None` before the book has begun.
#[must_use]
pub fn decide(state: &State, draft: &DecideDraft, now: At) -> Option<DecideView> {
    let desk = Desk::of(state, draft, now)?;
    let judged = desk.judged_venue(draft);
    let here = desk.at(judged);
    let mut venues: Vec<VenueCard> = Vec::new();
    for (id, venue) in state.venues() {
        let there = desk.at(Some(id));
        let sums = there.appraisal.judged.as_ref();
        venues.push(VenueCard {
            id,
            name: venue.name.clone().unwrap_or_default(),
            post_in: sums.map_or(Money::ZERO, |judged| judged.likely.posting.paid_in),
            arrangement: there.arrangement,
            keep: sums.map(Judged::keep),
            judged: Some(id) == judged,
        });
    }
    // The best first; those that keep the same stay in their order.
    let mut places: Vec<usize> = (0..venues.len()).collect();
    places.sort_unstable_by_key(|place| (std::cmp::Reverse(venues[*place].keep), *place));
    let venues = places.iter().map(|place| venues[*place].clone()).collect();
    let what = &desk.packing.what;
    let starter_of = what.kind.as_ref().map_or(&[][..], |kind| kind.cautions);
    let cautions = cautions(&draft.name, starter_of);
    let is_posted = here.arrangement.is_posted();
    let buy = desk.typed.ask.filter(|_| desk.typed.faults.is_empty());
    Some(DecideView {
        currency: desk.currency,
        judged,
        postage: here.posted.postage.filter(|_| is_posted),
        packing: here.posted.packing,
        rough: here.posted.rough && is_posted,
        cautions: cautions.into_iter().map(Caution::sentence).collect(),
        stale: old_rates(&here, is_posted),
        kind: what.kind.as_ref().map(|kind| kind.name.clone()),
        posted: here.posted,
        appraisal: here.appraisal,
        faults: desk.typed.faults,
        venues,
        buy,
    })
}

/// Says that rates are old, when nobody has looked at them for long.
fn old_rates(here: &AtVenue, is_posted: bool) -> Option<String> {
    let card = here.posted.stale.filter(|_| is_posted);
    let days = here.stale.max(card)?;
    let which = match (here.stale, card) {
        (Some(terms), Some(card)) if card > terms => "The rate card was",
        (None, Some(_)) => "The rate card was",
        _ => "The venue\u{2019}s terms were",
    };
    Some(format!("{which} last checked {days} days ago."))
}

/// The thing that Buy logs, with what is paid for it. `None` while there is no ask, or a field has a fault.
#[must_use]
pub fn purchase(state: &State, draft: &DecideDraft, now: At) -> Option<Purchase> {
    let desk = Desk::of(state, draft, now)?;
    let ask = desk.typed.ask.filter(|_| desk.typed.faults.is_empty())?;
    Some(Purchase {
        by: if draft.other {
            Paying::Other
        } else {
            Paying::Cash
        },
        ..Purchase::of_one(ask, bought(&desk, draft))
    })
}

/// The thing that "Not now" keeps. `None` before the book has begun.
#[must_use]
pub fn left_behind(state: &State, draft: &DecideDraft, now: At) -> Option<LeftBehind> {
    let desk = Desk::of(state, draft, now)?;
    let thing = bought(&desk, draft);
    Some(LeftBehind {
        name: thing.name,
        kind: thing.kind,
        ask: desk.typed.ask,
        sells: thing.sells,
        expected: thing.expected,
    })
}

/// What is typed, as a thing of a purchase.
#[must_use]
pub fn as_bought(state: &State, draft: &DecideDraft, now: At) -> Option<Bought> {
    Some(bought(&Desk::of(state, draft, now)?, draft))
}

fn bought(desk: &Desk<'_>, draft: &DecideDraft) -> Bought {
    let judged = desk.judged_venue(draft);
    let here = desk.at(judged);
    let expected = here.appraisal.judged.as_ref().and_then(|found| {
        let (verdict, _) = found.verdict?;
        Some(Expected {
            venue: judged?,
            terms: here.terms?,
            ask: found.ask?,
            keep: found.keep(),
            ceiling: found.ceiling.ok().map(|ceiling| ceiling.exact),
            verdict: match verdict {
                Verdict::Buy => Word::Buy,
                Verdict::Haggle => Word::Haggle,
                Verdict::Leave => Word::Leave,
            },
            card: here.posted.card.filter(|_| here.posted.service.is_some()),
            rough: here.posted.rough,
        })
    });
    Bought {
        name: draft.name.clone(),
        kind: desk.packing.what.kind.as_ref().map(|kind| kind.id),
        weight: None,
        size: None,
        sells: desk.typed.sells,
        postage: here.posted.postage.unwrap_or_default(),
        packing: here.posted.packing,
        expected,
    }
}

/// One thing judged by itself, on its own venue: a piece of a pile.
#[derive(Clone)]
pub(super) struct Alone {
    /// What kind of thing it is.
    pub kind: Option<String>,
    /// What the seller asked for it.
    pub ask: Option<Money>,
    /// What it sells for.
    pub sells: Option<Money>,
    /// What is wrong with what was typed, as a sentence.
    pub fault: Option<String>,
    /// Whether the verdict rests on rough figures.
    pub rough: bool,
    /// The appraisal.
    pub appraisal: Appraisal,
}

/// Works one thing out, on its own venue alone.
pub(super) fn alone(state: &State, draft: &DecideDraft, now: At) -> Option<Alone> {
    let desk = Desk::of(state, draft, now)?;
    let here = desk.at(desk.judged_venue(draft));
    let kind = desk.packing.what.kind.as_ref();
    Some(Alone {
        kind: kind.map(|kind| kind.name.clone()),
        ask: desk.typed.ask,
        sells: desk.typed.sells.map(Sells::likely),
        fault: desk.typed.faults.into_iter().next().map(|fault| fault.1),
        rough: here.posted.rough && here.arrangement.is_posted(),
        appraisal: here.appraisal,
    })
}
