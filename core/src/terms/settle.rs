//! Turning a sale into its lines.

use super::{Amount, Base, Schedule};
use crate::money::{Money, Rate, percent_of};

/// What one charge comes to on one sale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The charge's label.
    pub label: String,
    /// What it comes to.
    pub amount: Money,
    /// How that was worked out.
    pub how: How,
}

/// How a line was worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// So much percent of an amount.
    Percent {
        /// The percentage.
        rate: Rate,
        /// What it was taken of.
        of: Money,
    },
    /// The same on every sale.
    Flat,
}

/// A sale in its lines. `price + post_in − cut = payout`, and the lines sum to the cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settlement {
    /// The thing's own price.
    pub price: Money,
    /// The postage that the buyer pays.
    pub post_in: Money,
    /// One line a charge, in the schedule's order.
    pub lines: Vec<Line>,
    /// The venue's cut: the sum of the lines.
    pub cut: Money,
    /// What the venue pays out, before postage out. Below nothing when the charges are over all that the buyer pays.
    pub payout: Money,
}

/// Settles a sale at `price` with `post_in` paid by the buyer for postage. Each charge is rounded half away from zero, once.
pub fn settle(schedule: &Schedule, price: Money, post_in: Money) -> Settlement {
    let lines: Vec<Line> = schedule
        .charges
        .iter()
        .map(|charge| {
            let (amount, how) = charged(charge.base, charge.amount, price, post_in);
            Line {
                label: charge.label.clone(),
                amount,
                how,
            }
        })
        .collect();
    let cut = lines.iter().map(|line| line.amount).sum();
    Settlement {
        price,
        post_in,
        lines,
        cut,
        payout: price.plus(post_in).minus(cut),
    }
}

/// The payout alone, without its lines.
pub fn payout(schedule: &Schedule, price: Money, post_in: Money) -> Money {
    let cut = schedule
        .charges
        .iter()
        .map(|charge| charged(charge.base, charge.amount, price, post_in).0)
        .sum();
    price.plus(post_in).minus(cut)
}

fn charged(base: Base, amount: Amount, price: Money, post_in: Money) -> (Money, How) {
    match amount {
        Amount::Flat(flat) => (flat, How::Flat),
        Amount::Percent(rate) => {
            let of = match base {
                Base::Price => price,
                Base::PriceAndPost => price.plus(post_in),
            };
            (percent_of(of, rate), How::Percent { rate, of })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::Charge;

    fn check(charges: Vec<Charge>, price: i64, post_in: i64, lines: &[i64], pays: i64) {
        let schedule = Schedule { charges };
        let settled = settle(&schedule, Money::new(price), Money::new(post_in));
        let found: Vec<i64> = settled
            .lines
            .iter()
            .map(|line| line.amount.minor())
            .collect();
        assert_eq!(found, lines);
        assert_eq!(settled.cut.minor(), lines.iter().sum::<i64>());
        assert_eq!(settled.payout.minor(), pays);
        assert_eq!(
            payout(&schedule, Money::new(price), Money::new(post_in)),
            settled.payout
        );
    }

    #[test]
    fn each_charge_is_rounded_once_and_on_its_own() {
        let ten = || Charge::percent("Sale", Rate::percent(10), Base::Price);
        let ten_of_all = || Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost);
        check(
            vec![ten_of_all(), Charge::flat("Order", Money::new(25))],
            2600,
            450,
            &[305, 25],
            2720,
        );
        check(vec![ten()], 2600, 450, &[260], 2790);
        check(
            vec![Charge::percent("Sale", Rate::percent(15), Base::Price)],
            2600,
            0,
            &[390],
            2210,
        );
        // 5 minor units at 10 % twice: a unit each, where 20 % at once would also be one.
        check(vec![ten(), ten()], 5, 0, &[1, 1], 3);
        check(vec![], 1500, 0, &[], 1500);
        check(
            vec![Charge::flat("Order", Money::new(25))],
            0,
            0,
            &[25],
            -25,
        );
    }
}
