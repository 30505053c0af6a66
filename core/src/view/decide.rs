//! Decide: the verdict on what is typed, on the judged venue and on the others.

use super::draft::{DecideDraft, Field};
use crate::appraise::{Appraisal, Case, Judged, Selling, Verdict, appraise};
use crate::book::{Expected, Purchase, State, Word};
use crate::day::Day;
use crate::id::{TermsId, VenueId};
use crate::money::{Currency, Money};
use crate::postage::Arrangement;
use crate::worth::Sells;

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

/// Typed amounts, with what is wrong with the rest.
struct Typed {
    ask: Option<Money>,
    sells: Option<Sells>,
    postage: Option<Money>,
    packing: Option<Money>,
    faults: Vec<(Field, String)>,
}

fn read(draft: &DecideDraft, currency: Currency) -> Typed {
    let mut faults = Vec::new();
    let mut amount = |field| match draft.amount(field, currency) {
        Ok(amount) => amount,
        Err(error) => {
            faults.push((field, error.to_string()));
            None
        }
    };
    let (ask, postage, packing) = (
        amount(Field::Ask),
        amount(Field::Postage),
        amount(Field::Packing),
    );
    let (low, likely, high) = (
        amount(Field::Low),
        amount(Field::Likely),
        amount(Field::High),
    );
    let sells = likely.and_then(|likely| match Sells::new(low, likely, high) {
        Ok(sells) => Some(sells),
        Err(error) => {
            let field = if low.is_some_and(|low| low > likely) {
                Field::Low
            } else {
                Field::High
            };
            faults.push((field, error.to_string()));
            None
        }
    });
    Typed {
        ask,
        sells,
        postage,
        packing,
        faults,
    }
}

/// What a venue makes of what is typed.
struct AtVenue {
    arrangement: Arrangement,
    postage: Option<Money>,
    packing: Money,
    terms: Option<TermsId>,
    appraisal: Appraisal,
}

fn at_venue(
    state: &State,
    typed: &Typed,
    venue: Option<VenueId>,
    currency: Currency,
    today: Day,
) -> AtVenue {
    let known = venue.and_then(|id| state.venue(id));
    let terms = venue.and_then(|id| state.terms_on(id, today));
    let arrangement = known
        .and_then(|venue| venue.arrangement.clone())
        .unwrap_or_default();
    let postage = typed
        .postage
        .or_else(|| known.and_then(|venue| venue.postage));
    let packing = typed
        .packing
        .or_else(|| known.and_then(|venue| venue.packing))
        .unwrap_or_default();
    let schedule = terms.and_then(|(_, terms)| terms.schedule.as_ref());
    let appraisal = appraise(&Case {
        currency,
        ask: typed.ask,
        sells: typed.sells,
        venue: schedule.map(|schedule| Selling {
            arrangement: &arrangement,
            schedule,
        }),
        postage,
        packing,
        allowances: state.allowances(),
        rules: state.house_rules(currency),
    });
    AtVenue {
        arrangement,
        postage,
        packing,
        terms: terms.map(|(id, _)| id),
        appraisal,
    }
}

fn judged_venue(state: &State, draft: &DecideDraft) -> Option<VenueId> {
    draft
        .venue
        .filter(|id| state.venue(*id).is_some())
        .or_else(|| state.usual_venue())
}

/// Works Decide out. `None` before the book has begun.
#[must_use]
pub fn decide(state: &State, draft: &DecideDraft, today: Day) -> Option<DecideView> {
    let currency = state.currency()?;
    let typed = read(draft, currency);
    let judged = judged_venue(state, draft);
    let here = at_venue(state, &typed, judged, currency, today);
    let likely = typed.sells.map(Sells::likely).unwrap_or_default();
    let mut venues: Vec<VenueCard> = state
        .venues()
        .map(|(id, venue)| {
            let there = at_venue(state, &typed, Some(id), currency, today);
            VenueCard {
                id,
                name: venue.name.clone().unwrap_or_default(),
                post_in: there
                    .arrangement
                    .posting(Some(there.postage.unwrap_or_default()), None, likely)
                    .map(|posting| posting.paid_in)
                    .unwrap_or_default(),
                arrangement: there.arrangement,
                keep: there.appraisal.judged.as_ref().map(Judged::keep),
                judged: Some(id) == judged,
            }
        })
        .collect();
    venues.sort_by_key(|card| std::cmp::Reverse(card.keep));
    let buy = typed.ask.filter(|_| typed.faults.is_empty());
    Some(DecideView {
        currency,
        judged,
        postage: here.postage.filter(|_| here.arrangement.is_posted()),
        packing: here.packing,
        appraisal: here.appraisal,
        faults: typed.faults,
        venues,
        buy,
    })
}

/// The purchase that Buy logs. `None` while there is no ask, or a field has a fault.
#[must_use]
pub fn purchase(state: &State, draft: &DecideDraft, today: Day) -> Option<Purchase> {
    let currency = state.currency()?;
    let typed = read(draft, currency);
    let ask = typed.ask.filter(|_| typed.faults.is_empty())?;
    let judged = judged_venue(state, draft);
    let here = at_venue(state, &typed, judged, currency, today);
    let expected = here.appraisal.judged.as_ref().and_then(|found| {
        let (verdict, _) = found.verdict?;
        Some(Expected {
            venue: judged?,
            terms: here.terms?,
            ask,
            keep: found.keep(),
            ceiling: found.ceiling.ok().map(|ceiling| ceiling.exact),
            verdict: match verdict {
                Verdict::Buy => Word::Buy,
                Verdict::Haggle => Word::Haggle,
                Verdict::Leave => Word::Leave,
            },
        })
    });
    Some(Purchase {
        paid: ask,
        name: draft.name.clone(),
        sells: typed.sells,
        postage: here.postage.unwrap_or_default(),
        packing: here.packing,
        expected,
    })
}
