//! Spreading a sum of an order over the things in it.

use crate::money::{Money, split};

/// By what a sum of an order is spread over its things.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// By price: for charges and other sums of money.
    ByPrice,
    /// By weight: for postage.
    ByWeight,
}

/// One thing of an order, as far as spreading goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Portion {
    /// Its own price. Below nothing counts as nothing.
    pub price: Money,
    /// Its weight, in any unit that is the same for all.
    pub weight: u64,
}

/// Spreads a sum over the things of an order, in their order. The parts add up to the sum (see [`split`]); where the rule
/// tells nothing apart, because all is free or nothing is weighed, the parts are even.
pub fn spread(total: Money, rule: Spread, things: &[Portion]) -> Vec<Money> {
    let mut weights = Vec::with_capacity(things.len());
    for thing in things {
        weights.push(match rule {
            Spread::ByPrice => u64::try_from(thing.price.minor()).unwrap_or(0),
            Spread::ByWeight => thing.weight,
        });
    }
    split(total, &weights)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_goes_by_price_and_postage_by_weight() {
        let thing = |price, weight| Portion {
            price: Money::new(price),
            weight,
        };
        let order = [thing(30_00, 200), thing(10_00, 600), thing(0, 0)];
        let check = |total, rule, things: &[Portion], expected: &[i64]| {
            let parts = spread(Money::new(total), rule, things);
            let parts: Vec<i64> = parts.into_iter().map(Money::minor).collect();
            assert_eq!(parts, expected, "{total} {rule:?}");
        };
        check(1_01, Spread::ByPrice, &order, &[76, 25, 0]);
        check(4_50, Spread::ByWeight, &order, &[1_13, 3_37, 0]);
        check(30, Spread::ByPrice, &[thing(0, 1), thing(0, 3)], &[15, 15]);
        check(30, Spread::ByPrice, &[thing(-5, 1), thing(5, 3)], &[0, 30]);
        check(30, Spread::ByWeight, &[], &[]);
    }
}
