//! Haul: what was bought, newest first, and what it comes to.

use crate::book::{Expected, Passed, State, Thing};
use crate::id::ThingId;
use crate::money::{Currency, Money};
use crate::stamp::At;
use crate::worth::Sells;

/// What Haul shows.
#[derive(Clone, Debug, PartialEq)]
pub struct HaulView {
    /// The book's currency.
    pub currency: Currency,
    /// Paid for all of it.
    pub spent: Money,
    /// What was expected to be kept, over the things that were judged.
    pub keep: Money,
    /// How many things were bought without a verdict, and so are not in `keep`.
    pub unjudged: usize,
    /// The things, newest first.
    pub rows: Vec<HaulRow>,
    /// Things passed by, newest first.
    pub passed: Vec<PassedRow>,
}

/// A thing that was passed by.
#[derive(Clone, Debug, PartialEq)]
pub struct PassedRow {
    /// Its name, or its kind's; empty when neither was said.
    pub name: String,
    /// What the seller wanted.
    pub ask: Option<Money>,
    /// The verdict.
    pub expected: Option<Expected>,
}

/// One thing.
#[derive(Clone, Debug, PartialEq)]
pub struct HaulRow {
    /// Which.
    pub id: ThingId,
    /// Its name; empty while it has none.
    pub name: String,
    /// What it cost.
    pub paid: Money,
    /// What it sells for.
    pub sells: Option<Sells>,
    /// The verdict as it stood when it was bought.
    pub expected: Option<Expected>,
    /// When it was bought.
    pub bought: Option<At>,
    /// Whether something about it waits for the trader's choice.
    pub disputed: bool,
}

/// Works Haul out. `None` before the book has begun.
#[must_use]
pub fn haul(state: &State) -> Option<HaulView> {
    let currency = state.currency()?;
    let costs = state.costs();
    let rows: Vec<HaulRow> = state
        .things()
        .rev()
        .map(|(id, thing)| {
            row(
                state,
                id,
                thing,
                costs.get(&id).copied().unwrap_or_default(),
            )
        })
        .collect();
    let judged = || rows.iter().filter_map(|row| row.expected.as_ref());
    Some(HaulView {
        currency,
        spent: rows.iter().map(|row| row.paid).sum(),
        keep: judged().map(|expected| expected.keep).sum(),
        unjudged: rows.len() - judged().count(),
        passed: state
            .passed_by()
            .rev()
            .map(|thing| passed(state, thing))
            .collect(),
        rows,
    })
}

fn passed(state: &State, thing: &Passed) -> PassedRow {
    let kind = || Some(state.kind(thing.kind?)?.name);
    PassedRow {
        name: thing.name.clone().or_else(kind).unwrap_or_default(),
        ask: thing.ask,
        expected: thing.expected.clone(),
    }
}

fn row(state: &State, id: ThingId, thing: &Thing, paid: Money) -> HaulRow {
    let lot = thing.lot.and_then(|id| state.tables.lots.get(&id.0));
    let lot = lot.map(|entry| &entry.value);
    let disputes = state
        .tables
        .things
        .get(&id.0)
        .is_some_and(|entry| !entry.disputes.is_empty());
    let kind = || Some(state.kind(thing.kind?)?.name);
    HaulRow {
        id,
        name: thing.name.clone().or_else(kind).unwrap_or_default(),
        paid,
        sells: thing.sells,
        expected: thing.expected.clone(),
        bought: lot.and_then(|lot| lot.bought),
        disputed: disputes,
    }
}
