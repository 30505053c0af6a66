//! Faulty cards, one fault each.

use super::*;
use crate::measure::{Direction, WeightUnit};
use crate::money::Money;

fn good() -> RateCard {
    let mut service = Service::new("Parcel", WeightUnit::Ounce);
    service.zones = vec!["near".to_owned(), "far".to_owned()];
    for up_to in ["8 oz", "1 lb"] {
        service.steps.push(Step {
            up_to: up_to.parse().unwrap(),
            prices: vec![Some(Money::new(400)), None],
        });
    }
    RateCard {
        name: "Northmail".to_owned(),
        rough: false,
        mix: vec![4_000, 6_000],
        services: vec![service],
    }
}

fn check(spoil: impl FnOnce(&mut RateCard), expected: &Result<(), CardError>) {
    let mut card = good();
    spoil(&mut card);
    assert_eq!(&card.check(), expected);
}

#[test]
fn a_faulty_card_is_refused_with_the_place_of_the_fault() {
    let service = || "Parcel".to_owned();
    check(|_| (), &Ok(()));
    check(|card| card.mix.clear(), &Ok(()));
    check(|card| card.name.clear(), &Err(CardError::Name));
    check(
        |card| card.services[0].name = "n".repeat(41),
        &Err(CardError::Name),
    );
    check(
        |card| card.services[0].zones[1].clear(),
        &Err(CardError::Name),
    );
    check(|card| card.services.clear(), &Err(CardError::Services));
    check(|card| card.mix[0] = 3_999, &Err(CardError::Mix));
    check(
        |card| card.mix = vec![10_000],
        &Err(CardError::MixZones {
            service: service(),
            zones: 2,
            shares: 1,
        }),
    );
    check(
        |card| card.services[0].zones.clear(),
        &Err(CardError::Zones { service: service() }),
    );
    check(
        |card| card.services[0].steps.clear(),
        &Err(CardError::Steps { service: service() }),
    );
    check(
        |card| card.services[0].steps.reverse(),
        &Err(CardError::NotHeavier {
            service: service(),
            step: 2,
        }),
    );
    check(
        |card| card.services[0].steps[1].prices.truncate(1),
        &Err(CardError::Prices { service: service() }),
    );
    check(
        |card| card.services[0].steps[1].prices[0] = Some(Money::new(-1)),
        &Err(CardError::Amount { service: service() }),
    );
    check(
        |card| {
            card.services[0].rounding = Some(Rounding {
                step: "0 oz".parse().unwrap(),
                direction: Direction::Up,
            });
        },
        &Err(CardError::Nothing { service: service() }),
    );
}

#[test]
fn one_zone_alone_stands_for_all() {
    let mut card = good();
    card.services[0].zones.truncate(1);
    for step in &mut card.services[0].steps {
        step.prices.truncate(1);
    }
    assert_eq!(card.check(), Ok(()));
    let parcel = Parcel {
        weight: "4 oz".parse().unwrap(),
        size: None,
        container: None,
    };
    for to in [To::Zone(0), To::Zone(9), To::Mix] {
        let total = quote(&card, &card.services[0], &parcel, to).map(|quote| quote.total);
        assert_eq!(total, Ok(Money::new(400)));
    }
}

#[test]
fn what_a_card_does_not_say_has_no_price() {
    let mut card = good();
    let parcel = Parcel {
        weight: "4 oz".parse().unwrap(),
        size: None,
        container: None,
    };
    let ask =
        |card: &RateCard, to| quote(card, &card.services[0], &parcel, to).map(|quote| quote.total);
    let far = || {
        Err(Refused::NotOffered {
            zone: "far".to_owned(),
        })
    };
    assert_eq!(ask(&card, To::Zone(1)), far());
    assert_eq!(ask(&card, To::Mix), far());
    assert_eq!(ask(&card, To::Zone(2)), Err(Refused::NoZone));
    card.mix = vec![10_000, 0];
    assert_eq!(ask(&card, To::Mix), Ok(Money::new(400)));
    card.mix.clear();
    assert_eq!(ask(&card, To::Mix), Err(Refused::NoMix));
    card.services[0].steps.clear();
    assert_eq!(ask(&card, To::Zone(0)), Err(Refused::NoSteps));
}
