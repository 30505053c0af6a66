//! Lots: several things for one price, and what each of them cost.

use serde::{Deserialize, Serialize};

use crate::money::{Money, split};

/// How a lot's price is shared over its things. In files by its name; a name that this version doesn't know is unreadable.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// To each the same.
    #[default]
    Evenly,
    /// By what each sells for: relative sales value, as joint costs are shared (26 CFR 1.61-6: parts of one purchase carry an
    /// equitably apportioned cost).
    ByPrice,
}

/// What each thing of a lot cost, in the order given. `prices` says what each sells for. The shares always add up to `paid`: largest
/// remainder, ties in the order given. While the price of one of them is not known, or all are nothing, they share evenly.
pub fn shares(paid: Money, method: Method, prices: &[Option<Money>]) -> Vec<Money> {
    let weight = |price: &Option<Money>| match (method, price) {
        (Method::Evenly, _) => Some(1),
        (Method::ByPrice, price) => price.and_then(|price| u64::try_from(price.minor()).ok()),
    };
    let weights: Option<Vec<u64>> = prices.iter().map(weight).collect();
    split(paid, &weights.unwrap_or_else(|| vec![1; prices.len()]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(paid: i64, method: Method, prices: &[i64], shares_are: &[i64]) {
        // Below nothing stands for a price that is not known.
        let prices: Vec<Option<Money>> = prices
            .iter()
            .map(|price| (*price >= 0).then(|| Money::new(*price)))
            .collect();
        let found: Vec<i64> = shares(Money::new(paid), method, &prices)
            .into_iter()
            .map(Money::minor)
            .collect();
        assert_eq!(found, shares_are);
    }

    #[test]
    fn shares_add_up_and_go_by_price_or_evenly() {
        check(
            1_000,
            Method::ByPrice,
            &[2_200, 1_200, 800],
            &[524, 286, 190],
        );
        check(2_000, Method::Evenly, &[1, 2, 3], &[667, 667, 666]);
        check(1_000, Method::ByPrice, &[2_200, -1], &[500, 500]);
        check(1_000, Method::ByPrice, &[0, 0], &[500, 500]);
        check(1_000, Method::ByPrice, &[900, 0], &[1_000, 0]);
        check(0, Method::ByPrice, &[900, 100], &[0, 0]);
        check(1_000, Method::ByPrice, &[], &[]);
    }
}
