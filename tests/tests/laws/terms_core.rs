//! The model's terms and sales as the core has them.

use haulwren_core::id::KindId;
use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{
    Amount, Base, Charge, Group, Period, Positions, Refund, Sale, Schedule, Scope, Step, When,
};
use rust_decimal::Decimal;
use uuid::Uuid;

use crate::terms_types::{Back, Facts, Limit, Much, Of, Row, Rule, Terms};

pub const REGIONS: [&str; 3] = ["North", "South", "West"];

fn money(minor: i128) -> Money {
    Money::new(i64::try_from(minor).unwrap())
}

fn rate(parts: i128) -> Rate {
    Rate::from_decimal(Decimal::from_i128_with_scale(parts, 4)).unwrap()
}

pub fn kind(number: u8) -> KindId {
    KindId(Uuid::from_u128(u128::from(number) + 1))
}

/// A sale of the core at a price.
pub fn sale(facts: &Facts, price: i128) -> Sale {
    Sale {
        price: money(price),
        post_in: money(facts.post),
        tax: facts.tax.map(money),
        kind: facts.kind.map(kind),
        promoted: facts.promoted,
        region: facts
            .region
            .map(|at| REGIONS[usize::from(at)].to_lowercase()),
        running: money(facts.running),
    }
}

fn positions(named: &[usize]) -> Positions {
    let places: Vec<usize> = named.iter().map(|at| at + 1).collect();
    Positions::of(&places).unwrap()
}

fn amount(much: &Much) -> Amount {
    let steps = |rows: &[Row]| {
        let step = |row: &Row| Step {
            from: money(row.from),
            percent: rate(row.rate),
            flat: money(row.flat),
        };
        rows.iter().map(step).collect()
    };
    match much {
        Much::Rate(parts) => Amount::Percent(rate(*parts)),
        Much::Flat(flat) => Amount::Flat(money(*flat)),
        Much::Brackets(rows) => Amount::Brackets(steps(rows)),
        Much::Slices(rows) => Amount::Slices(steps(rows)),
        Much::Tiers(rows) => Amount::Tiers {
            by: Period::Month,
            steps: steps(rows),
        },
    }
}

fn charge(at: usize, rule: &Rule) -> Charge {
    const SCOPES: [Scope; 5] = [
        Scope::Thing,
        Scope::Order,
        Scope::Parcel,
        Scope::Listing,
        Scope::Month,
    ];
    Charge {
        label: format!("Charge {}", at + 1),
        base: match &rule.of {
            Of::Price => Base::Price,
            Of::PriceAndPost => Base::PriceAndPost,
            Of::Total { assumed } => Base::OrderTotal(rate(*assumed)),
            Of::Others(named) => Base::Charges(positions(named)),
        },
        amount: amount(&rule.much),
        scope: SCOPES[usize::from(rule.scope)],
        least: rule.least.map(money),
        most: rule.most.map(money),
        when: When {
            from: rule.from.map(money),
            below: rule.below.map(money),
            kinds: rule.kinds.iter().copied().map(kind).collect(),
            promoted: rule.promoted,
            regions: rule
                .regions
                .iter()
                .map(|at| REGIONS[usize::from(*at)].to_owned())
                .collect(),
        },
        owed_unsold: rule.unsold,
        refund: match rule.back {
            Back::Nothing => Refund::Kept,
            Back::All => Refund::Returned,
            Back::AllBut(less) => Refund::ReturnedLess(money(less)),
        },
    }
}

/// The core's schedule of these terms.
pub fn schedule(terms: &Terms) -> Schedule {
    let group = |limit: &Limit| Group {
        label: "Together".to_owned(),
        charges: positions(&limit.of),
        least: limit.least.map(money),
        most: limit.most.map(money),
    };
    let rules = terms.rules.iter().enumerate();
    Schedule {
        charges: rules.map(|(at, rule)| charge(at, rule)).collect(),
        groups: terms.limits.iter().map(group).collect(),
    }
}
