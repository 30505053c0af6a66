//! Tables of cases of the terms.

use super::*;
use crate::id::KindId;
use crate::money::{Currency, Money, Rate};
use uuid::Uuid;

mod checking;
mod inverting;
mod lines;
mod owing;
mod reading;
mod settling;
mod taking_all;

fn m(minor: i64) -> Money {
    Money::new(minor)
}

fn rate(text: &str) -> Rate {
    Rate::parse(text).expect("a rate")
}

fn kind(number: u128) -> KindId {
    KindId(Uuid::from_u128(number))
}

fn usd() -> Currency {
    Currency::from_code("USD").expect("a currency")
}

fn percent(text: &str, base: Base) -> Charge {
    Charge::percent("Sale", rate(text), base)
}

fn flat(minor: i64) -> Charge {
    Charge::flat("Order", m(minor))
}

/// Steps from so much on: a rate, and a flat sum.
fn steps(given: &[(i64, &str, i64)]) -> Vec<Step> {
    let step = |(from, percent, flat): &(i64, &str, i64)| Step {
        from: m(*from),
        percent: rate(percent),
        flat: m(*flat),
    };
    given.iter().map(step).collect()
}

fn brackets(given: &[(i64, &str, i64)]) -> Charge {
    Charge::new("Brackets", Base::Price, Amount::Brackets(steps(given)))
}

fn slices(given: &[(i64, &str, i64)]) -> Charge {
    Charge::new("Slices", Base::Price, Amount::Slices(steps(given)))
}

fn of_charges(text: &str, places: &[usize]) -> Charge {
    let named = Positions::of(places).expect("places");
    Charge::percent("Tax on fees", rate(text), Base::Charges(named))
}

fn group(places: &[usize], least: Option<i64>, most: Option<i64>) -> Group {
    Group {
        label: "Together".to_owned(),
        charges: Positions::of(places).expect("places"),
        least: least.map(m),
        most: most.map(m),
    }
}

fn sale(price: i64, post_in: i64) -> Sale {
    Sale::of(m(price), m(post_in))
}

/// The lines as so many minor units each, the cut and the payout checked beside them.
fn check(schedule: &Schedule, sale: &Sale, expected: &[i64]) {
    let settled = settle(schedule, sale);
    let found: Vec<i64> = settled
        .lines
        .iter()
        .map(|line| line.amount.minor())
        .collect();
    assert_eq!(found, expected, "{schedule:?} {sale:?}");
    let cut: i64 = expected.iter().sum();
    assert_eq!(settled.cut.minor(), cut);
    assert_eq!(settled.payout.plus(m(cut)), sale.price.plus(sale.post_in));
    assert_eq!(payout(schedule, sale), settled.payout);
}
