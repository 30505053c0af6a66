//! Commands, undo and what is read off the book, case by case; here is what the cases are told with.

mod attention;
mod cash;
mod deciding;
mod joining;
mod lots;
mod reading;
mod settling;
mod things;
mod trips;
mod undoing;

use super::*;
use crate::appraise::{HouseRules, RulesError};
use crate::change::{Change, RecordKey};
use crate::day::Day;
use crate::id::{DeviceCode, RulesId, TermsId, ThingId, VenueId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::{Base, Charge, Schedule, TermsError, Usual};
use crate::worth::{Allowances, Sells, WorthError};
use uuid::Uuid;

const NOON: At = At(1_795_279_327_123, 0);

/// A book and its changes. Chance is a counter.
struct Told {
    state: State,
    log: Vec<Change>,
    now: At,
    drawn: u8,
}

impl Told {
    fn new() -> Self {
        Self {
            state: State::new("abcdefgh".parse().expect("a code")),
            log: Vec::new(),
            now: NOON,
            drawn: 0,
        }
    }

    fn begun() -> Self {
        let mut told = Self::new();
        told.tell(&begin("Phone"));
        told
    }

    fn ask(&mut self, command: &Command) -> Result<Vec<Edits>, Refusal> {
        let drawn = &mut self.drawn;
        let mut chance = || {
            *drawn += 1;
            [*drawn; 10]
        };
        let mut context = Context {
            at: self.now,
            chance: &mut chance,
        };
        self.state.decide(command, &mut context)
    }

    fn save(&mut self, edits: Vec<Edits>) -> Vec<Change> {
        let changes = self.state.stamp(edits, self.now);
        for change in &changes {
            self.state.fold_own(change);
        }
        self.log.extend(changes.iter().cloned());
        changes
    }

    fn tell(&mut self, command: &Command) -> Vec<Change> {
        let edits = self.ask(command).expect("a command that is taken");
        self.save(edits)
    }

    fn refuses(&mut self, command: &Command, expected: Refusal) {
        assert_eq!(self.ask(command), Err(expected), "{command:?}");
    }

    fn undo(&mut self, save: &[Change]) -> Vec<Change> {
        let edits = undo(save, &self.log).expect("something to undo");
        self.save(edits)
    }
}

/// A second device that has what the first one has.
fn other(of: &Told, code: &str) -> Told {
    let me: DeviceCode = code.parse().expect("a code");
    let mut other = Told::new();
    other.log.clone_from(&of.log);
    other.state = State::from_changes(me, &other.log);
    // Chance that does not repeat the first one's.
    other.drawn = 100;
    other.now.0 += 1_000;
    other
}

/// Both take in what the other has.
fn exchange(one: &mut Told, other: &mut Told) {
    let mut all = [one.log.as_slice(), &other.log].concat();
    all.sort_unstable_by_key(|change| change.key);
    all.dedup_by_key(|change| change.key);
    for told in [one, other] {
        told.log.clone_from(&all);
        told.state = State::from_changes(told.state.me, &all);
    }
}

fn begin(device: &str) -> Command {
    Command::Begin {
        currency: Currency::from_code("USD").expect("a currency"),
        device: device.to_owned(),
    }
}

fn buy(name: &str, paid: i64) -> Purchase {
    let thing = Bought {
        name: name.to_owned(),
        postage: Money::new(450),
        ..Bought::default()
    };
    Purchase::of_one(Money::new(paid), thing)
}

fn setup(name: &str, percent: u32) -> VenueSetup {
    let share = Charge::percent("Share of the sale", Rate::percent(percent), Base::Price);
    VenueSetup {
        name: name.to_owned(),
        arrangement: Arrangement::BuyerAtCost,
        postage: Some(Money::new(450)),
        packing: Some(Money::new(40)),
        schedule: Schedule::of(vec![share]),
        usual: Usual::default(),
    }
}

fn save_venue(id: Option<VenueId>, setup: VenueSetup) -> Command {
    Command::SaveVenue { id, setup }
}

fn lot_of(paid: i64, things: &[(&str, i64)]) -> Command {
    let thing = |(name, price): &(&str, i64)| Bought {
        name: (*name).to_owned(),
        sells: Sells::new(None, Money::new(*price), None).ok(),
        ..Bought::default()
    };
    Command::Buy(Purchase {
        extras: Money::ZERO,
        paid: Money::new(paid),
        things: things.iter().map(thing).collect(),
        method: Method::ByPrice,
        by: Paying::Cash,
    })
}

/// What each thing cost, in the order in which they were bought.
fn costs(told: &Told) -> Vec<i64> {
    let costs = told.state.costs();
    costs.iter().map(|(_, cost)| cost.minor()).collect()
}

fn kinds(changes: &[Change]) -> Vec<&str> {
    changes.iter().map(|change| change.kind.name()).collect()
}
