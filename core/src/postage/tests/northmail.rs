//! The card of the pictures, and what it asks: rates invented, sums recomputed.

use super::*;
use crate::measure::{Direction, WeightUnit};
use crate::money::Money;

/// Zone 5: up to 12 oz 4.50, 1 lb 5.50, 2 lb 6.50, 6 lb 12.00; zone 2 a 1.00 less, zone 3 a 0.50; Fast 3.50 more; by volume above
/// 800 cubic inches (166 a pound, here).
fn northmail() -> RateCard {
    let mut parcel = Service::new("Parcel", WeightUnit::Ounce);
    parcel.zones = ["2", "3", "5"].map(str::to_owned).to_vec();
    for (up_to, far) in [("12 oz", 450), ("1 lb", 550), ("2 lb", 650), ("6 lb", 1200)] {
        parcel.steps.push(Step {
            up_to: up_to.parse().unwrap(),
            prices: [100, 50, 0]
                .map(|less| Some(Money::new(far - less)))
                .to_vec(),
        });
    }
    parcel.volumetric = Some(Volumetric {
        per: "166 in3".parse().unwrap(),
        each: WeightUnit::Pound,
        rounding: Rounding {
            step: "1 lb".parse().unwrap(),
            direction: Direction::Up,
        },
        over: "800 in3".parse().ok(),
    });
    let mut fast = parcel.clone();
    fast.name = "Fast".to_owned();
    for step in &mut fast.steps {
        for price in step.prices.iter_mut().flatten() {
            *price = price.plus(Money::new(350));
        }
    }
    RateCard {
        name: "Northmail".to_owned(),
        rough: false,
        mix: vec![2_000, 3_000, 5_000],
        services: vec![parcel, fast],
    }
}

fn parcel(weight: &str, size: &str) -> Parcel<'static> {
    Parcel {
        weight: weight.parse().unwrap(),
        size: size.parse().ok(),
        container: None,
    }
}

fn total(parcel: &Parcel<'_>, to: To) -> Result<i64, Refused> {
    let card = northmail();
    quote(&card, &card.services[0], parcel, to).map(|quote| quote.total.minor())
}

#[test]
fn the_pictures_prices_come_out() {
    let dress = parcel("11.5 oz", "12 x 9 x 2 in");
    assert_eq!(total(&dress, To::Zone(2)), Ok(450));
    assert_eq!(total(&dress, To::Zone(0)), Ok(350));
    assert_eq!(
        total(&parcel("22 oz", "9 x 6 x 2 in"), To::Zone(2)),
        Ok(650)
    );
    // 0.2 of 3.50, 0.3 of 4.00 and 0.5 of 4.50.
    assert_eq!(total(&dress, To::Mix), Ok(415));
    let card = northmail();
    let fast = quote(&card, &card.services[1], &dress, To::Zone(2)).unwrap();
    assert_eq!(fast.total, Money::new(800));
    let (at, cheapest) = best(&card, &dress, To::Mix).unwrap();
    assert_eq!((at, cheapest.far), (0, Some(Money::new(450))));
    assert_eq!(card.check(), Ok(()));
}

#[test]
fn bulk_is_billed_only_over_its_volume() {
    // 800 cubic inches exactly: by the scale. A thousand: 6.02 lb, so 7, which is over the last step.
    assert_eq!(
        total(&parcel("1 lb", "10 x 10 x 8 in"), To::Zone(2)),
        Ok(550)
    );
    let bulky = total(&parcel("1 lb", "10 x 10 x 10 in"), To::Zone(2));
    let most = "6 lb".parse().unwrap();
    assert_eq!(bulky, Err(Refused::TooBulky { most }));
    assert_eq!(
        bulky.unwrap_err().to_string(),
        "Too bulky: its volume would be billed as more than 6 lb."
    );
    assert_eq!(
        total(&parcel("1 lb", "10 x 10 x 9 in"), To::Zone(2)),
        Ok(1200)
    );
    let card = northmail();
    let quote = quote(
        &card,
        &card.services[0],
        &parcel("1 lb", "10 x 10 x 9 in"),
        To::Zone(2),
    );
    let quote = quote.unwrap();
    assert!(quote.by_volume && !quote.rough && quote.hint.is_none());
    assert_eq!(quote.billable.to_string(), "6 lb");
}

#[test]
fn hints_say_how_near_a_step_is() {
    let card = northmail();
    let hint = |weight: &str| {
        let parcel = Parcel {
            size: None,
            ..parcel(weight, "")
        };
        let quote = quote(&card, &card.services[0], &parcel, To::Zone(2)).unwrap();
        assert!(quote.rough, "no size, on a card that goes by size");
        quote.hint
    };
    let weight = |text: &str| text.parse::<crate::measure::Weight>().unwrap();
    let under = |room, more: Option<i64>| {
        let (room, more) = (weight(room), more.map(Money::new));
        Some(Hint::Under { room, more })
    };
    let over = |by, saves| {
        let (by, saves) = (weight(by), Money::new(saves));
        Some(Hint::Over { by, saves })
    };
    assert_eq!(hint("11.7 oz"), under("0.3 oz", Some(100)));
    assert_eq!(hint("11.75 oz"), under("0.2 oz", Some(100)));
    assert_eq!(hint("12 oz"), under("0 oz", Some(100)));
    assert_eq!(hint("12.3 oz"), over("0.3 oz", 100));
    assert_eq!(hint("12.31 oz"), over("0.4 oz", 100));
    assert_eq!(hint("11 oz"), None);
    assert_eq!(hint("13 oz"), None);
    assert_eq!(hint("95 oz"), under("1 oz", None));
    assert_eq!(hint("2.05 lb"), over("0.8 oz", 550));
}

/// Less weight saves nothing while the volume holds the parcel at its step; and over the most weight there is no next step.
#[test]
fn hints_mind_the_volume_and_the_most_weight() {
    let mut card = northmail();
    let hint = |card: &RateCard, weight: &str, size: &str| {
        let quote = quote(card, &card.services[0], &parcel(weight, size), To::Zone(2));
        quote.unwrap().hint
    };
    // 810 cubic inches count as 5 lb: so do 2.05 lb.
    assert_eq!(hint(&card, "2.05 lb", "10 x 9 x 9 in"), None);
    assert!(hint(&card, "2.05 lb", "8 x 9 x 9 in").is_some());
    card.services[0].limits.heaviest = "15.5 oz".parse().ok();
    let room = "0.5 oz".parse().unwrap();
    let more = None;
    assert_eq!(hint(&card, "15 oz", ""), Some(Hint::Under { room, more }));
    card.services[0].limits.heaviest = "1 lb".parse().ok();
    let room = "0.2 oz".parse().unwrap();
    let more = Some(Money::new(100));
    assert_eq!(hint(&card, "11.8 oz", ""), Some(Hint::Under { room, more }));
    assert_eq!(
        hint(&card, "15.8 oz", ""),
        Some(Hint::Under { room, more: None })
    );
}

#[test]
fn flat_containers_go_at_their_own_price() {
    let mut card = northmail();
    card.services[0].flat = vec![FlatPrice {
        container: "Box S".to_owned(),
        prices: vec![Some(Money::new(700)), Some(Money::new(700)), None],
        heaviest: "20 lb".parse().ok(),
    }];
    let boxed = |weight| Parcel {
        container: Some("Box S"),
        ..parcel(weight, "12 x 12 x 12 in")
    };
    let ask = |weight, to| quote(&card, &card.services[0], &boxed(weight), to);
    let found = ask("19 lb", To::Zone(0)).unwrap();
    assert_eq!((found.total, found.far), (Money::new(700), None));
    assert_eq!(found.lines[0].what, What::Flat("Box S".to_owned()));
    let most = "20 lb".parse().unwrap();
    assert_eq!(ask("20.1 lb", To::Zone(0)), Err(Refused::TooHeavy { most }));
    let zone = "5".to_owned();
    assert_eq!(ask("1 lb", To::Mix), Err(Refused::NotOffered { zone }));
}

#[test]
fn of_surcharges_by_one_measure_the_greatest_counts() {
    let mut card = northmail();
    let over = |text: &str, amount| Surcharge {
        over: Over::Longest(text.parse().unwrap()),
        amount: Money::new(amount),
    };
    card.services[0].surcharges = vec![
        over("22 in", 400),
        over("30 in", 1500),
        over("26 in", 900),
        Surcharge {
            over: Over::LengthAndGirth("30 in".parse().unwrap()),
            amount: Money::new(25),
        },
    ];
    let ask = |size| {
        let quote = quote(&card, &card.services[0], &parcel("8 oz", size), To::Zone(2));
        quote.map(|quote| (quote.lines.len(), quote.total.minor()))
    };
    assert_eq!(ask("22 x 2 x 2 in"), Ok((1, 450)));
    assert_eq!(ask("22.5 x 1 x 1 in"), Ok((2, 850)));
    assert_eq!(ask("23 x 2 x 2 in"), Ok((3, 875)));
    assert_eq!(ask("2 x 31 x 2 in"), Ok((3, 1975)));
}

#[test]
fn a_rough_card_has_four_to_six_steps() {
    let steps = |count: usize| {
        let step = |at: usize| (format!("{at} lb").parse().unwrap(), Money::new(500));
        (1..=count).map(step).collect::<Vec<_>>()
    };
    assert_eq!(
        RateCard::rough("First", &steps(3)),
        Err(CardError::RoughSteps)
    );
    assert_eq!(
        RateCard::rough("First", &steps(7)),
        Err(CardError::RoughSteps)
    );
    assert_eq!(RateCard::rough(" ", &steps(4)), Err(CardError::Name));
    let card = RateCard::rough("First", &steps(4)).unwrap();
    let (_, quote) = best(&card, &parcel("3.5 lb", "1 x 1 x 1 in"), To::Mix).unwrap();
    assert_eq!((quote.total, quote.rough), (Money::new(500), true));
    let heavy = best(&card, &parcel("5 lb", "1 x 1 x 1 in"), To::Zone(7));
    assert_eq!(
        heavy,
        Err(vec![Refused::TooHeavy {
            most: "4 lb".parse().unwrap()
        }])
    );
}

/// Steps finer than the rounding: half an ounce less goes down two steps, and saves both.
#[test]
fn a_hint_skips_the_steps_that_rounding_skips() {
    let mut service = Service::new("Parcel", WeightUnit::Ounce);
    service.zones.push("all".to_owned());
    for (up_to, price) in [("1 lb", 400), ("24 oz", 500), ("2 lb", 600)] {
        service.steps.push(Step {
            up_to: up_to.parse().unwrap(),
            prices: vec![Some(Money::new(price))],
        });
    }
    service.rounding = Some(Rounding {
        step: "1 lb".parse().unwrap(),
        direction: Direction::Up,
    });
    let card = RateCard {
        name: "Northmail".to_owned(),
        services: vec![service],
        ..RateCard::default()
    };
    let hint = |weight: &str| {
        let weight = weight.parse().unwrap();
        let parcel = Parcel {
            weight,
            size: None,
            container: None,
        };
        quote(&card, &card.services[0], &parcel, To::Zone(0))
            .unwrap()
            .hint
    };
    let saves = Money::new(2_00);
    let by = "0.5 oz".parse().unwrap();
    assert_eq!(hint("16.5 oz"), Some(Hint::Over { by, saves }));
    let (room, more) = ("0.5 oz".parse().unwrap(), Some(saves));
    assert_eq!(hint("15.5 oz"), Some(Hint::Under { room, more }));
}
