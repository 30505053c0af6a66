//! Sample data: an invented trader's book, told command by command, for looking around before there is anything of one's own. All names,
//! rates and prices are made up.

use crate::appraise::HouseRules;
use crate::book::{
    Bought, Command, LeftBehind, LotCommand, Purchase, State, TripCommand, VenueSetup,
};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::measure::{Direction, ParcelSize, Weight, WeightUnit};
use crate::money::{Currency, Money, Rate};
use crate::packing::{Container, Form};
use crate::postage::{Arrangement, RateCard, Rounding, Volumetric, parse_table};
use crate::stamp::At;
use crate::terms::{Amount, Base, Charge, Schedule, Step, Usual};
use crate::view::{DecideDraft, as_bought, left_behind};
use crate::worth::Allowances;

/// The command of a step, counted from 0, of a book as the steps before made it; `None` after the last one.
#[must_use]
pub fn sample(step: usize, state: &State, now: At) -> Option<Command> {
    let usd = Currency::from_code("USD").ok()?;
    let place = match step {
        0 => {
            return Some(Command::Begin {
                currency: usd,
                device: "Phone".to_owned(),
            });
        }
        1 => {
            return Some(Command::SetRules {
                rules: HouseRules {
                    least_keep: Some(Money::new(8_00)),
                    ..HouseRules::starting(usd)
                },
                // Not the shares to begin with, which would change nothing.
                allowances: Allowances::default(),
            });
        }
        2 => {
            return Some(Command::SaveCard {
                id: None,
                card: northmail(usd)?,
            });
        }
        step => step - 3,
    };
    let (venues, containers, buys) = (venues(), containers(), BUYS);
    if let Some(setup) = venues.get(place) {
        return Some(Command::SaveVenue {
            id: None,
            setup: setup.clone(),
        });
    }
    let place = place - venues.len();
    if let Some(container) = containers.get(place) {
        return Some(Command::SaveContainer {
            id: None,
            container: container.clone(),
        });
    }
    match place - containers.len() {
        0 => Some(Command::Trip(TripCommand::StartTrip {
            name: String::new(),
            took_out: Some(Money::new(80_00)),
            odometer: None,
        })),
        1 => Some(Command::Trip(TripCommand::NextStop {
            stop: None,
            name: "Alder Lane driveway sale".to_owned(),
        })),
        2 => Some(Command::Lot(LotCommand::BuyUnsorted {
            count: 12,
            paid: Money::new(10_00),
            by: Paying::Cash,
            name: String::new(),
        })),
        place => match buys.get(place - 3) {
            Some(bought) => buy(state, bought, now).map(Command::Buy),
            None if place - 3 == buys.len() => passed(state, now).map(Command::PassBy),
            None => None,
        },
    }
}

/// A thing as it was typed at the table: name, kind, asked, low, likely, high.
type Typed = [&'static str; 6];

/// What was paid, in cents, how, and what for.
type Paid = (i64, Paying, &'static [Typed]);

const BUYS: [Paid; 4] = [
    (
        10_00,
        Paying::Cash,
        &[
            [
                "wool duffle coat, child",
                "Jacket or coat",
                "6",
                "15",
                "22",
                "30",
            ],
            ["rain boots, child", "Shoes", "4", "8", "12", "16"],
            ["tin lantern", "Crockery", "2", "5", "8", "12"],
        ],
    ),
    (
        4_50,
        Paying::Other,
        &[[
            "brass bookends (pair)",
            "Crockery",
            "4.50",
            "20",
            "28",
            "36",
        ]],
    ),
    (
        6_00,
        Paying::Cash,
        &[["linen wrap dress", "Dress", "6", "18", "26", "34"]],
    ),
    (
        0,
        Paying::Cash,
        &[["enamel jug", "Crockery", "0", "10", "16", "22"]],
    ),
];

const LEFT: Typed = ["plaster dog", "Crockery", "2", "6", "9", "12"];

fn draft(state: &State, typed: &Typed) -> DecideDraft {
    let [name, kind, ask, low, likely, high] = typed.map(str::to_owned);
    let known = state.kinds().into_iter().find(|known| known.name == kind);
    DecideDraft {
        name,
        kind: known.map(|known| known.id),
        ask,
        low,
        likely,
        high,
        ..DecideDraft::default()
    }
}

fn buy(state: &State, (paid, by, things): &Paid, now: At) -> Option<Purchase> {
    let mut bought: Vec<Bought> = Vec::new();
    for typed in *things {
        bought.push(as_bought(state, &draft(state, typed), now)?);
    }
    let method = if bought.len() > 1 {
        Method::ByPrice
    } else {
        Method::Evenly
    };
    Some(Purchase {
        paid: Money::new(*paid),
        extras: Money::ZERO,
        things: bought,
        method,
        by: *by,
    })
}

fn passed(state: &State, now: At) -> Option<LeftBehind> {
    left_behind(state, &draft(state, &LEFT), now)
}

/// Quayside: + post, 10 % of price and post and 0.25. Marlpost: post included, 15 %, flat 1.50 under 10.00. Townboard: in person.
fn venues() -> [VenueSetup; 3] {
    let brackets = Amount::Brackets(vec![
        Step::flat(Money::ZERO, Money::new(1_50)),
        Step::rate(Money::new(10_00), Rate::percent(15)),
    ]);
    let one = |name: &str, arrangement, packing, charges| VenueSetup {
        name: name.to_owned(),
        arrangement,
        postage: Some(Money::new(4_50)),
        packing: Some(Money::new(packing)),
        schedule: Schedule::of(charges),
        usual: Usual::default(),
    };
    let quayside = vec![
        Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
        Charge::flat("Each sale", Money::new(25)),
    ];
    let marlpost = vec![Charge::new("Sale", Base::Price, brackets)];
    [
        one("Quayside", Arrangement::BuyerAtCost, 30, quayside),
        one("Marlpost", Arrangement::SellerPays, 30, marlpost),
        one("Townboard", Arrangement::HandedOver, 0, Vec::new()),
    ]
}

fn containers() -> [Container; 3] {
    let one = |name: &str, ounces, cents, [a, b, c]: [u16; 3], form| Container {
        name: name.to_owned(),
        tare: Weight::whole(ounces, WeightUnit::Ounce),
        cost: Money::new(cents),
        inside: ParcelSize::inches(a, b, c),
        form,
    };
    [
        one("Grey mailer", 1, 30, [15, 12, 4], Form::Mailer),
        one("Shoe carton", 6, 40, [14, 9, 6], Form::Carton),
        one("Cube carton", 8, 60, [10, 10, 10], Form::Carton),
    ]
}

/// Zone 5: up to 12 oz 4.50, 1 lb 5.50, 2 lb 6.50, 6 lb 12.00; zone 2 a 1.00 less, zone 3 a 0.50; by volume above 800 cubic inches.
fn northmail(currency: Currency) -> Option<RateCard> {
    const TABLE: &str = ";zone 2;zone 3;zone 5\n12 oz;3.50;4.00;4.50\n1 lb;4.50;5.00;5.50\n2 lb;5.50;6.00;6.50\n6 lb;11.00;11.50;12.00";
    let mut parcel =
        parse_table(TABLE, WeightUnit::Ounce, currency).service("Parcel", WeightUnit::Ounce);
    parcel.volumetric = Some(Volumetric {
        per: "166 in3".parse().ok()?,
        each: WeightUnit::Pound,
        rounding: Rounding {
            step: Weight::whole(1, WeightUnit::Pound),
            direction: Direction::Up,
        },
        over: Some("800 in3".parse().ok()?),
    });
    Some(RateCard {
        name: "Northmail".to_owned(),
        rough: false,
        mix: vec![2_000, 3_000, 5_000],
        services: vec![parcel],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Context;
    use crate::view::haul;

    /// Tells the whole sample to an empty book.
    fn told() -> State {
        let mut state = State::new("abcdefgh".parse().expect("a code"));
        let at = At(1_795_279_327_123, 0);
        let mut drawn = 0_u8;
        for step in 0.. {
            let Some(command) = sample(step, &state, at) else {
                assert!(step > 12, "every step has a command");
                break;
            };
            let mut chance = || {
                drawn += 1;
                [drawn; 10]
            };
            let mut context = Context {
                at,
                chance: &mut chance,
            };
            let edits = state.decide(&command, &mut context);
            let edits = edits.unwrap_or_else(|refusal| panic!("step {step}: {refusal}"));
            for change in state.stamp(edits, at) {
                state.fold_own(&change);
            }
        }
        state
    }

    #[test]
    fn the_sample_is_a_book_with_a_haul_that_was_judged() {
        let state = told();
        let view = haul(&state).expect("a book");
        assert_eq!(view.rows.len(), 6);
        // The pictures' Saturday: 80.00 less 26.00 in cash, 4.50 otherwise, 18 things of which 12 are not sorted.
        assert_eq!(view.sums.spent, Money::new(30_50));
        let trip = view.trip.expect("a trip");
        assert_eq!(trip.purse.left(), Money::new(54_00));
        assert_eq!(trip.purse.spent_other, Money::new(4_50));
        assert_eq!(view.sums.no_estimate, 0);
        assert_eq!(view.passed.len(), 1);
        assert_eq!(state.venues().count(), 3);
        let (_, card) = state.usual_card().expect("a card");
        assert_eq!(card.card.as_ref().map(RateCard::check), Some(Ok(())));
        assert_eq!(state.kinds().iter().filter(|kind| kind.typical).count(), 12);
    }
}
