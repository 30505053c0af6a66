//! The pocket card: "no more than" by what a thing sells for and what its parcel weighs, under the trader's rules, on the usual venue. To
//! be printed, or kept as a picture, for sales where the phone stays in the pocket.

use crate::appraise::{Case, HouseRules, Judged, Selling, appraise};
use crate::book::State;
use crate::day::Day;
use crate::measure::Weight;
use crate::money::{Currency, Money, Rate, plain};
use crate::postage::{Parcel, RateCard, To, best};
use crate::worth::{Allowances, Sells};

/// What things sell for, in whole units; in hundreds of them where the currency has no smaller ones.
const PRICES: [i64; 12] = [5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100];

/// The most columns of weights.
const COLUMNS: usize = 6;

/// The card.
#[derive(Clone, Debug, PartialEq)]
pub struct Pocket {
    /// The book's currency.
    pub currency: Currency,
    /// The venue's name.
    pub venue: String,
    /// The rules it goes by, as phrases.
    pub rules: Vec<String>,
    /// The rate card's name, and whether it is rough.
    pub card: Option<(String, bool)>,
    /// The day it was made.
    pub day: Day,
    /// The heading of each column: a weight, or what stands for all of them.
    pub columns: Vec<String>,
    /// What a thing sells for, and the most to pay for it, column by column: zero where that is less than the step of cash, so that only
    /// a free find pays; none where it is worth nothing, or is not posted at all.
    pub rows: Vec<(Money, Vec<Option<Money>>)>,
}

/// Works the card out. `None` before the book has begun, and without a venue whose terms are known.
#[must_use]
pub fn pocket(state: &State, today: Day) -> Option<Pocket> {
    let currency = state.currency()?;
    let id = state.usual_venue()?;
    let venue = state.venue(id)?;
    let schedule = state.terms_on(id, today)?.1.schedule.as_ref()?;
    let arrangement = venue.arrangement.clone().unwrap_or_default();
    let usual = state.usual_of(id);
    let (rules, allowances) = (state.house_rules(currency), state.allowances());
    let card = state
        .card_of(id)
        .and_then(|(_, record)| record.card.as_ref());
    let card = card.filter(|_| arrangement.is_posted());
    let ways = if arrangement.is_posted() {
        ways(
            card,
            venue.postage.filter(|postage| !postage.is_zero()),
            currency,
        )
    } else {
        vec![Way::any("Handed over", None)]
    };
    let unit = match currency.unit().minor() {
        1 => 100,
        unit => unit,
    };
    let most = |price: Money, way: &Way| {
        let case = Case {
            currency,
            ask: None,
            sells: Some(Sells::new(None, price, None).ok()?),
            venue: Some(Selling {
                arrangement: &arrangement,
                schedule,
                usual: &usual,
            }),
            postage: way.postage,
            packing: venue.packing.unwrap_or_default(),
            work: Money::ZERO,
            premium: Rate::ZERO,
            weight: way.weight,
            kind: None,
            allowances,
            rules,
        };
        let judged = appraise(&case).judged.filter(Judged::is_worth_something);
        let most = judged?.most_to_pay();
        Some(if most < rules.cash_step {
            Money::ZERO
        } else {
            most
        })
    };
    let row = |units: i64| {
        let price = Money::new(units * unit);
        (price, ways.iter().map(|way| most(price, way)).collect())
    };
    Some(Pocket {
        currency,
        venue: venue.name.clone().unwrap_or_default(),
        rules: phrases(&rules, allowances, currency),
        card: card.map(|card| (card.name.clone(), card.rough)),
        day: today,
        rows: PRICES.map(row).into(),
        columns: ways.into_iter().map(|way| way.name).collect(),
    })
}

/// One column: a weight, or all of them.
struct Way {
    name: String,
    weight: Option<Weight>,
    postage: Option<Money>,
}

impl Way {
    fn any(name: &str, postage: Option<Money>) -> Self {
        Self {
            name: name.to_owned(),
            weight: None,
            postage,
        }
    }
}

/// The lightest steps of the card; the usual postage when there is no card.
fn ways(card: Option<&RateCard>, usual: Option<Money>, currency: Currency) -> Vec<Way> {
    let mut weights: Vec<Weight> = Vec::new();
    for service in card.iter().flat_map(|card| &card.services) {
        weights.extend(service.steps.iter().map(|step| step.up_to));
    }
    weights.sort_unstable_by_key(|weight| weight.ticks());
    weights.dedup_by_key(|weight| weight.ticks());
    let mut found = Vec::new();
    for weight in weights {
        let postage = card.and_then(|card| postage(card, weight));
        if found.len() < COLUMNS && postage.is_some() {
            found.push(Way {
                name: weight.to_string(),
                weight: Some(weight),
                postage,
            });
        }
    }
    if found.is_empty() {
        let name = usual.map_or_else(
            || "Postage not known".to_owned(),
            |usual| format!("Postage {}", plain(usual, currency)),
        );
        found.push(Way::any(&name, usual));
    }
    found
}

/// What the card asks for a parcel of this weight, over the zone mix, else to the far zone.
fn postage(card: &RateCard, weight: Weight) -> Option<Money> {
    let zones = card.services.iter().map(|service| service.zones.len());
    let to = if card.mix.is_empty() {
        To::Zone(zones.max().unwrap_or(1).saturating_sub(1))
    } else {
        To::Mix
    };
    let parcel = Parcel {
        weight,
        size: None,
        container: None,
    };
    best(card, &parcel, to).ok().map(|(_, quote)| quote.total)
}

/// The rules and what is set aside, as phrases.
fn phrases(rules: &HouseRules, allowances: Allowances, currency: Currency) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(least) = rules.least_keep {
        said.push(format!("keep at least {}", plain(least, currency)));
    }
    if let Some(times) = rules.least_multiple {
        said.push(format!("{times} times what you pay"));
    }
    said.push(format!("{} % set aside", allowances.rate()));
    if !rules.cash_step.is_zero() {
        let step = plain(rules.cash_step, currency);
        said.push(format!("down to steps of {step}"));
    }
    said
}

#[cfg(test)]
mod tests;
