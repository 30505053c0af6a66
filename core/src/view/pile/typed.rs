//! What lies on the pile and what is typed there: texts as on Decide, kept through a crash.

use super::super::draft::{DecideDraft, Field, Press};
use super::super::keys::pressed;
use crate::book::MOST_THINGS;
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, MoneyError, parse};
use serde::{Deserialize, Serialize};

/// Things weighed up but not yet bought, and what the seller says for all of them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct Pile {
    /// The things, in the order in which they were weighed up.
    pub things: Vec<Piled>,
    /// What the seller says for all.
    pub says: String,
    /// The thing whose asking price the keypad types; `None` types what the seller says for all.
    pub at: Option<usize>,
    /// Whether the next digit starts the field anew: it has just been stepped into.
    pub fresh: bool,
    /// What was put back last, so that it can lie on the pile again.
    pub back: Vec<Piled>,
}

/// One thing of the pile.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct Piled {
    /// As it was typed on Decide.
    pub draft: DecideDraft,
    /// Whether it is to be bought with the others.
    pub in_it: bool,
}

read_form!(Pile: things says at fresh back);
read_form!(Piled: draft in_it);

impl Pile {
    /// Lays so many alike on the pile, as many as a lot can hold. Says how many were laid; an empty draft is no thing.
    pub fn put(&mut self, draft: &DecideDraft, times: usize) -> usize {
        let room = MOST_THINGS.saturating_sub(self.things.len());
        let times = if draft.is_empty() { 0 } else { times.min(room) };
        // Where the keypad was, and what was covered, is no part of the thing.
        let thing = Piled {
            draft: DecideDraft {
                focus: Field::Ask,
                covered: false,
                fresh: false,
                ..draft.clone()
            },
            in_it: true,
        };
        for _ in 0..times {
            self.things.push(thing.clone());
        }
        times
    }

    /// Lays so many more alike beside a thing, as many as a lot can hold. Says how many were laid.
    pub fn more(&mut self, at: usize, times: usize) -> usize {
        let room = MOST_THINGS.saturating_sub(self.things.len());
        let Some(thing) = self.things.get(at).cloned() else {
            return 0;
        };
        let times = times.min(room);
        for _ in 0..times {
            self.things.insert(at + 1, thing.clone());
        }
        if let Some(priced) = self.at.filter(|priced| *priced > at) {
            self.at = Some(priced + times);
        }
        times
    }

    /// How many of one kind lie side by side where a thing lies, itself included.
    #[must_use]
    pub fn alike(&self, at: usize) -> usize {
        let Some(thing) = self.things.get(at) else {
            return 0;
        };
        let is_alike = |other: &&Piled| other.draft == thing.draft;
        let after = self.things[at..].iter().take_while(is_alike).count();
        let before = self.things[..at].iter().rev().take_while(is_alike).count();
        before + after
    }

    /// Puts one thing back.
    pub fn take_back(&mut self, at: usize) {
        if at < self.things.len() {
            self.back = vec![self.things.remove(at)];
            self.go(None);
        }
    }

    /// Puts everything back: the pile is empty, and nothing is said for it.
    pub fn put_all_back(&mut self) {
        let back = core::mem::take(&mut self.things);
        *self = Self {
            back,
            ..Self::default()
        };
    }

    /// Lays things on the pile again, as many as a lot can hold.
    pub fn lay_again(&mut self, things: &[Piled]) {
        let room = MOST_THINGS.saturating_sub(self.things.len());
        let things = &things[..things.len().min(room)];
        self.things.extend_from_slice(things);
    }

    /// Lays what was put back last on the pile again.
    pub fn undo_back(&mut self) {
        let back = core::mem::take(&mut self.back);
        self.lay_again(&back);
    }

    /// Takes a thing into what is bought, or leaves it out.
    pub fn tick(&mut self, at: usize, in_it: bool) {
        if let Some(thing) = self.things.get_mut(at) {
            thing.in_it = in_it;
        }
    }

    /// Moves the keypad to a thing's asking price, or to what the seller says for all. A digit typed there first replaces what stands there.
    pub fn go(&mut self, at: Option<usize>) {
        self.at = at.filter(|at| *at < self.things.len());
        self.fresh = true;
    }

    /// The text that the keypad types into.
    #[must_use]
    pub fn text(&self) -> &str {
        let thing = self.at.and_then(|at| self.things.get(at));
        thing.map_or(&self.says, |thing| &thing.draft.ask)
    }

    /// Types one key. A key that would make the text no amount is not taken.
    ///
    /// # Errors
    /// Why the key was not taken, with a sentence.
    pub fn press(&mut self, press: Press, currency: Currency) -> Result<(), MoneyError> {
        let after = pressed(self.text(), self.fresh, press, currency)?;
        let thing = self.at.and_then(|at| self.things.get_mut(at));
        *thing.map_or(&mut self.says, |thing| &mut thing.draft.ask) = after;
        self.fresh = false;
        Ok(())
    }

    /// What the seller says for all, when it is an amount.
    #[must_use]
    pub fn said(&self, currency: Currency) -> Option<Money> {
        parse(&self.says, currency).ok()
    }

    /// Whether nothing lies on it and nothing is said for it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.things.is_empty() && self.says.is_empty()
    }

    /// The things that are to be bought.
    pub(super) fn taken(&self) -> impl Iterator<Item = &Piled> {
        self.things.iter().filter(|thing| thing.in_it)
    }

    /// Takes off what was paid for. `paid` is the pile as it was then: what was laid on it, left out or typed since stays.
    pub fn after_paying(&mut self, paid: &Self) {
        for thing in paid.taken() {
            if let Some(at) = self.things.iter().position(|other| other == thing) {
                self.things.remove(at);
            }
        }
        if self.says == paid.says {
            self.says.clear();
        }
        self.back.clear();
        self.go(None);
    }
}
