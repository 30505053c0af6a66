//! Decide: the verdict on what is typed, on the judged venue and on the others.

mod again;
mod asked;
mod assumed;
mod desk;
mod posted;
mod sending;
mod typed;

pub use again::{sent_again, with_own};
pub use asked::Unasked;
pub use posted::Posted;
pub use sending::Sending;

use super::draft::{DecideDraft, Field};
use crate::appraise::{Appraisal, Ceiling, Verdict};
use crate::book::{Bought, Expected, LeftBehind, Purchase, State, Word};
use crate::id::VenueId;
use crate::ledger::Paying;
use crate::money::{Currency, Money, percent_of, plain};
use crate::packing::{Caution, cautions};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::worth::Sells;
use desk::{AtVenue, Desk};

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
    /// What is paid on top of it: buyer's premium.
    pub extras: Money,
    /// What was assumed and never said, as sentences.
    pub assumed: Vec<String>,
    /// Whether the terms hang on a promotion, and what was judged.
    pub promoted: Option<bool>,
    /// Another venue that the ask passes on while it doesn't here: its name and the most to pay for it there.
    pub elsewhere: Option<(String, Money)>,
}

impl DecideView {
    /// The flag's second line: where else the ask passes, else what the verdict says.
    #[must_use]
    pub fn second(&self) -> Option<String> {
        if let Some((name, most)) = &self.elsewhere {
            return Some(format!("{} on {name}", plain(*most, self.currency)));
        }
        let (_, flag) = self.appraisal.judged.as_ref()?.verdict?;
        flag.sentence(self.currency)
    }
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
    /// Whether it was chosen for this thing alone, and is not the one that things are judged on.
    pub chosen: bool,
    /// Whether nobody said what posting costs there.
    pub unsaid: bool,
    /// The most to pay for a thing that is sold there.
    pub most: Option<Ceiling>,
}

/// Works Decide out. `None` before the book has begun.
#[must_use]
pub fn decide(state: &State, draft: &DecideDraft, now: At) -> Option<DecideView> {
    let sending = Sending::of(state, draft.kind, draft.heft);
    let before = unasked(state, &sending, &draft.unasked(), now)?;
    Some(before.asked(state, draft, now))
}

/// Works out what [`decide`] shows before anything is asked, of a draft that asks nothing (see [`DecideDraft::unasked`]). `sending` is of the
/// same kind, or size and heft.
#[must_use]
pub fn unasked(state: &State, sending: &Sending, draft: &DecideDraft, now: At) -> Option<Unasked> {
    let desk = Desk::by(state, sending, draft, now)?;
    let judged = desk.judged_venue(draft);
    let (here, appraisal) = desk.at(judged);
    let mut venues: Vec<VenueCard> = Vec::new();
    for (id, venue) in state.venues() {
        let (there, appraisal) = desk.at(Some(id));
        let found = appraisal.judged;
        let sums = found.as_ref().map(|found| &found.likely);
        venues.push(VenueCard {
            most: found.as_ref().and_then(|found| found.ceiling.ok()),
            chosen: Some(id) == judged && Some(id) != desk.usual_venue(),
            unsaid: there.posted.unsaid.postage && there.arrangement.goes_by_cost(),
            id,
            name: venue.name.clone().unwrap_or_default(),
            post_in: sums.map_or(Money::ZERO, |sums| sums.posting.paid_in),
            arrangement: there.arrangement,
            keep: sums.map(|sums| sums.before),
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
    let is_unsaid = here.posted.unsaid.postage && here.arrangement.goes_by_cost();
    Some(Unasked(DecideView {
        assumed: assumed::all(&desk, &here, appraisal.judged.as_ref()),
        promoted: judged.and_then(|id| desk.promoted_on(id)),
        elsewhere: None,
        currency: desk.currency,
        judged,
        postage: here.posted.postage.filter(|_| is_posted),
        packing: here.posted.packing,
        rough: here.posted.rough && is_posted || is_unsaid,
        cautions: cautions.into_iter().map(Caution::sentence).collect(),
        stale: old_rates(&here, is_posted),
        kind: what.kind.as_ref().map(|kind| kind.name.clone()),
        posted: here.posted,
        appraisal,
        faults: desk.typed.faults,
        venues,
        buy: None,
        extras: Money::ZERO,
    }))
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
        extras: percent_of(ask, desk.premium),
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
    let (here, appraisal) = desk.at(judged);
    let expected = appraisal.judged.as_ref().and_then(|found| {
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
            sells: desk.typed.sells,
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
        needs: desk.typed.work,
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
    let (here, appraisal) = desk.at(desk.judged_venue(draft));
    let kind = desk.packing.what.kind.as_ref();
    Some(Alone {
        kind: kind.map(|kind| kind.name.clone()),
        ask: desk.typed.ask,
        sells: desk.typed.sells.map(Sells::likely),
        fault: desk.typed.faults.into_iter().next().map(|fault| fault.1),
        rough: here.posted.rough && here.arrangement.is_posted()
            || here.posted.unsaid.postage && here.arrangement.goes_by_cost(),
        appraisal,
    })
}

#[cfg(test)]
#[path = "tests"]
mod tests {
    mod sober;
}
