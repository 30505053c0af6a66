//! Tests of the venue form, and the setups that they share.

mod reading;
mod shaping;

use super::*;
use crate::book::VenueSetup;
use crate::id::KindId;
use crate::json;
use crate::measure::{Weight, WeightUnit};
use crate::money::{Currency, Money, Rate};
use crate::postage::{Arrangement, LabelPrice, NoPosting, Payer};
use crate::terms::{
    Amount, Base, Charge, Group, Period, Positions, Refund, Sale, Schedule, Scope, Step, Usual,
    When,
};

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

fn setup(charges: Vec<Charge>) -> VenueSetup {
    VenueSetup {
        name: "Quayside".to_owned(),
        arrangement: Arrangement::BuyerAtCost,
        postage: Some(Money::new(4_50)),
        packing: Some(Money::new(30)),
        schedule: Schedule::of(charges),
        usual: Usual::default(),
    }
}

/// A charge with every choice made otherwise than usual.
fn odd() -> Charge {
    let steps = vec![
        Step::flat(Money::ZERO, Money::new(1_50)),
        Step::rate(Money::new(10_00), Rate::percent(15)),
    ];
    let by = Period::Year;
    Charge {
        scope: Scope::Order,
        least: Some(Money::ZERO),
        most: Some(Money::new(9_00)),
        when: When {
            from: Some(Money::new(1)),
            below: Some(Money::new(99_00)),
            kinds: vec![KindId::SINGLE],
            promoted: Some(false),
            regions: vec!["North, or West".to_owned(), "South".to_owned()],
        },
        owed_unsold: true,
        refund: Refund::ReturnedLess(Money::ZERO),
        ..Charge::new(
            "Odd",
            Base::OrderTotal(Rate::percent(7)),
            Amount::Tiers { by, steps },
        )
    }
}

fn rich() -> VenueSetup {
    let named = Positions::of(&[1, 2]).unwrap();
    let mut rich = setup(vec![
        odd(),
        Charge::flat("Listing", Money::new(20)),
        Charge::percent("Tax", Rate::percent(20), Base::Charges(named)),
    ]);
    rich.schedule.groups.push(Group {
        label: "Together".to_owned(),
        charges: named,
        least: None,
        most: Some(Money::new(50_00)),
    });
    rich
}
