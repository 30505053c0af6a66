//! What a thing may be: kinds to choose from, and things bought before under the same name.

use super::draft::DecideDraft;
use crate::book::State;
use crate::id::KindId;
use crate::money::{Currency, Money, plain};
use crate::worth::Sells;

/// A kind to choose.
#[derive(Clone, Debug, PartialEq)]
pub struct KindChoice {
    /// Which.
    pub id: KindId,
    /// Its name.
    pub name: String,
    /// What one weighs, and whether that is only typical.
    pub line: String,
    /// Whether it is the one chosen.
    pub chosen: bool,
}

/// A thing bought before: its name, kind and prices can be taken again.
#[derive(Clone, Debug, PartialEq)]
pub struct Before {
    /// Its name.
    pub name: String,
    /// What kind it was.
    pub kind: Option<KindId>,
    /// What it was to sell for.
    pub sells: Option<Sells>,
}

/// What so many quarters of an hour cost at a rate for the whole, to the nearest minor unit.
#[must_use]
pub fn part_of_hour(hour: Money, quarters: i64) -> Money {
    Money::new((hour.minor().saturating_mul(quarters) + 2) / 4)
}

/// An amount as it is typed.
#[must_use]
pub fn typed_amount(amount: Money, currency: Currency) -> String {
    plain(amount, currency)
}

/// The most things bought before that are offered.
const MOST: usize = 8;

/// The kinds, own ones first; only those whose name holds what is typed.
#[must_use]
pub fn kinds(state: &State, draft: &DecideDraft) -> Vec<KindChoice> {
    let units = state.units();
    let mut choices = Vec::new();
    for kind in state.kinds() {
        let typical = if kind.typical { ", typical" } else { "" };
        choices.push(KindChoice {
            chosen: draft.kind == Some(kind.id),
            line: format!("{}{typical}", kind.piece.weight.shown(units)),
            name: kind.name,
            id: kind.id,
        });
    }
    choices
}

/// Things bought before, the last ones first, each name once; only those whose name holds what is typed.
#[must_use]
pub fn before(state: &State, typed: &str) -> Vec<Before> {
    let typed = typed.trim().to_ascii_lowercase();
    let mut found: Vec<Before> = Vec::new();
    for (_, thing) in state.things().rev() {
        let Some(name) = &thing.name else { continue };
        let is_known = found.iter().any(|known| known.name == *name);
        if is_known || !name.to_ascii_lowercase().contains(&typed) {
            continue;
        }
        found.push(Before {
            name: name.clone(),
            kind: thing.kind,
            sells: thing.sells,
        });
        if found.len() == MOST {
            break;
        }
    }
    found
}

impl Before {
    /// Takes name, kind and prices over into the draft. What is typed already stays.
    pub fn fill(&self, draft: &mut DecideDraft, currency: Currency) {
        draft.name.clone_from(&self.name);
        if self.kind.is_some() {
            draft.kind = self.kind;
            draft.heft = None;
        }
        let is_priced = [&draft.low, &draft.likely, &draft.high]
            .iter()
            .any(|text| !text.is_empty());
        if let Some(sells) = self.sells.filter(|_| !is_priced) {
            draft.likely = plain(sells.likely(), currency);
            if sells.low() < sells.likely() {
                draft.low = plain(sells.low(), currency);
            }
            if sells.high() > sells.likely() {
                draft.high = plain(sells.high(), currency);
            }
        }
    }
}
