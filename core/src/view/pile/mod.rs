//! The pile: each thing's ceiling, their sum, and the verdict on what the seller says for all.

mod typed;

#[cfg(test)]
mod tests;

pub use typed::{Pile, Piled};

use super::decide::{Alone, alone, as_bought};
use super::draft::DecideDraft;
use crate::appraise::{Figure, How, Judged, JudgedPile, What, Why, judge_pile};
use crate::book::{Bought, Purchase, State};
use crate::ledger::Paying;
use crate::lot::{Method, Piece, allocate};
use crate::money::{Currency, Money, percent_of, plain};
use crate::stamp::At;
use crate::worth::Sells;

/// What the pile shows.
#[derive(Clone, Debug, PartialEq)]
pub struct PileView {
    /// The book's currency.
    pub currency: Currency,
    /// Every thing, in the order in which they were weighed up.
    pub rows: Vec<PileRow>,
    /// How many are to be bought.
    pub in_it: usize,
    /// What was asked for those, one by one, as far as it was; none where nothing was.
    pub asked: Option<Money>,
    /// The pile's ceiling, as shown.
    pub ceiling: Money,
    /// What the seller says for all.
    pub says: Option<Money>,
    /// The sums and the verdict; none while nothing on it can be judged.
    pub judged: Option<JudgedPile>,
    /// Whether the verdict rests on rough figures.
    pub rough: bool,
    /// What is paid for all, when it can be.
    pub pay: Option<Money>,
}

/// One thing of the pile.
#[derive(Clone, Debug, PartialEq)]
pub struct PileRow {
    /// Its name; else that of its kind; else that it has none.
    pub name: String,
    /// What it sells for.
    pub sells: Option<Money>,
    /// What was asked for it.
    pub asked: Option<Money>,
    /// The most to pay for it.
    pub up_to: UpTo,
    /// Whether it is to be bought.
    pub in_it: bool,
    /// Its own sums, where they can be told.
    pub judged: Option<Judged>,
}

impl PileView {
    /// What was asked for each thing that is to be bought, a line each; they sum to what was asked for those.
    #[must_use]
    pub fn asked_lines(&self) -> Vec<Why> {
        let rows = self.rows.iter().filter(|row| row.in_it);
        let line = |row: &PileRow| {
            Some(Why {
                what: What::Thing(row.name.clone()),
                amount: row.asked?,
                how: How::Given,
            })
        };
        rows.filter_map(line).collect()
    }
}

impl PileRow {
    /// The lines that made the most to pay for it; what is left before you buy where it is worth nothing.
    #[must_use]
    pub fn lines(&self) -> Vec<Why> {
        let figure = match self.up_to {
            UpTo::Most(_) => Figure::Ceiling,
            UpTo::Nothing(_) | UpTo::Unknown(_) => Figure::BeforePurchase,
        };
        let judged = self.judged.as_ref();
        judged.map_or_else(Vec::new, |judged| judged.why(figure))
    }
}

/// The most to pay for a thing.
#[derive(Clone, Debug, PartialEq)]
pub enum UpTo {
    /// So much.
    Most(Money),
    /// It is worth nothing: even free, you keep no more than this.
    Nothing(Money),
    /// It can't be told yet: what to do about it, as a sentence.
    Unknown(String),
}

/// Works the pile out. `None` before the book has begun.
#[must_use]
pub fn pile(state: &State, pile: &Pile, now: At) -> Option<PileView> {
    let currency = state.currency()?;
    let mut all: Vec<Alone> = Vec::with_capacity(pile.things.len());
    for (at, thing) in pile.things.iter().enumerate() {
        let before = at.checked_sub(1).map(|before| &pile.things[before].draft);
        // Several alike lie side by side, and are worked out once.
        let alike = all.last().filter(|_| before == Some(&thing.draft)).cloned();
        all.push(match alike {
            Some(alike) => alike,
            None => alone(state, &thing.draft, now)?,
        });
    }
    let mut view = PileView {
        currency,
        rows: Vec::with_capacity(all.len()),
        in_it: 0,
        asked: None,
        ceiling: Money::ZERO,
        says: pile.said(currency),
        judged: None,
        rough: false,
        pay: None,
    };
    let mut pieces: Vec<(String, &Judged)> = Vec::new();
    for (thing, alone) in pile.things.iter().zip(&all) {
        let row = row(thing, alone);
        if thing.in_it {
            view.in_it += 1;
            let more = row
                .asked
                .map(|asked| asked.plus(view.asked.unwrap_or_default()));
            view.asked = more.or(view.asked);
            view.rough |= alone.rough;
            if let Some(judged) = &alone.appraisal.judged {
                pieces.push((row.name.clone(), judged));
            }
        }
        view.rows.push(row);
    }
    view.judged = judge_pile(&pieces, view.says, currency);
    let judged = view.judged.as_ref();
    view.ceiling = judged.map_or(Money::ZERO, |judged| judged.all.most_to_pay());
    view.pay = view.says.filter(|_| view.in_it > 0);
    Some(view)
}

fn row(thing: &Piled, alone: &Alone) -> PileRow {
    let name = match (thing.draft.name.trim(), &alone.kind) {
        ("", Some(kind)) => kind,
        ("", None) => "unnamed",
        (name, _) => name,
    };
    let up_to = match &alone.appraisal.judged {
        Some(judged) if judged.is_worth_something() => UpTo::Most(judged.most_to_pay()),
        Some(judged) => UpTo::Nothing(judged.likely.before),
        None => {
            let missing = alone.appraisal.missing.first();
            let missing = missing.map(|missing| missing.sentence().to_owned());
            UpTo::Unknown(alone.fault.clone().or(missing).unwrap_or_default())
        }
    };
    PileRow {
        name: name.to_owned(),
        sells: alone.sells,
        asked: alone.ask,
        up_to,
        in_it: thing.in_it,
        judged: alone.appraisal.judged.clone(),
    }
}

/// The lot that "Paid for all" logs: the things that are to be bought, the price shared by what each sells for. `None` while nothing is
/// said for all, or nothing is to be bought.
#[must_use]
pub fn paid_for_all(state: &State, pile: &Pile, now: At) -> Option<Purchase> {
    let paid = pile.said(state.currency()?)?;
    let mut things: Vec<Bought> = Vec::new();
    for thing in pile.taken() {
        things.push(as_bought(state, &thing.draft, now)?);
    }
    judge_unasked(state, pile, &mut things, paid, now);
    let extras = percent_of(paid, state.premium_here());
    if things.len() <= 1 {
        let alone = |thing| Purchase {
            extras,
            ..Purchase::of_one(paid, thing)
        };
        return things.pop().map(alone);
    }
    Some(Purchase {
        paid,
        extras,
        things,
        method: Method::ByPrice,
        by: Paying::Cash,
    })
}

/// What the seller asked no price of its own for was asked its part of the price for all, by what each sells for: so it is judged too.
fn judge_unasked(state: &State, pile: &Pile, things: &mut [Bought], paid: Money, now: At) {
    let Some(currency) = state.currency() else {
        return;
    };
    let piece = |thing: &Bought| Piece {
        price: thing.sells.map(Sells::likely),
        ..Piece::default()
    };
    let pieces: Vec<Piece> = things.iter().map(piece).collect();
    let split = allocate(paid, Method::ByPrice, &pieces, 0);
    for ((of, thing), share) in pile.taken().zip(things).zip(&split.shares) {
        if thing.expected.is_some() || !of.draft.ask.is_empty() {
            continue;
        }
        let draft = DecideDraft {
            ask: plain(share.amount, currency),
            ..of.draft.clone()
        };
        thing.expected = as_bought(state, &draft, now).and_then(|thing| thing.expected);
    }
}
