//! What the tests of views are told with: a book with the venue and the rules of the pictures.

use crate::appraise::HouseRules;
use crate::book::{Command, Context, State, VenueSetup};
use crate::change::Change;
use crate::day::Day;
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::{Base, Charge, Schedule, Usual};
use crate::worth::Allowances;

pub const NOON: At = At(1_795_279_327_123, 0);

/// A book. Chance is a counter.
pub struct Kit {
    pub state: State,
    drawn: u8,
}

pub fn usd() -> Currency {
    Currency::from_code("USD").expect("a currency")
}

pub fn now() -> At {
    NOON
}

pub fn today() -> Day {
    NOON.day().expect("a day")
}

impl Kit {
    /// A begun book without a venue.
    pub fn begun() -> Self {
        let mut kit = Self {
            state: State::new("abcdefgh".parse().expect("a code")),
            drawn: 0,
        };
        kit.tell(&Command::Begin {
            currency: usd(),
            device: "Phone".to_owned(),
        });
        kit
    }

    /// The pictures' Quayside: + post, 10 % of price and post + 0.25, packing 0.30; at least 8.00 to keep, 25 % aside.
    pub fn quayside() -> Self {
        let mut kit = Self::begun();
        kit.tell(&Command::SaveVenue {
            id: None,
            setup: VenueSetup {
                name: "Quayside".to_owned(),
                arrangement: Arrangement::BuyerAtCost,
                postage: Some(Money::new(4_50)),
                packing: Some(Money::new(30)),
                schedule: Schedule::of(vec![
                    Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
                    Charge::flat("Order", Money::new(25)),
                ]),
                usual: Usual::default(),
            },
        });
        kit.tell(&Command::SetRules {
            rules: HouseRules {
                least_keep: Some(Money::new(8_00)),
                ..HouseRules::starting(usd())
            },
            allowances: Allowances::default(),
        });
        kit
    }

    /// Does what a command comes to.
    pub fn tell(&mut self, command: &Command) -> Vec<Change> {
        let drawn = &mut self.drawn;
        let mut chance = || {
            *drawn += 1;
            [*drawn; 10]
        };
        let mut context = Context {
            at: NOON,
            chance: &mut chance,
        };
        let edits = self.state.decide(command, &mut context);
        let edits = edits.expect("a command that is taken");
        let changes = self.state.stamp(edits, NOON);
        for change in &changes {
            self.state.fold_own(change);
        }
        changes
    }
}
