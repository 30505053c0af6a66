//! The least price whose payout reaches a target.

use super::{Amount, Base, Refusal, Schedule, payout};
use crate::money::{Money, Rate};

/// The least price, from nothing up, at which a sale pays out at least `target` when the buyer pays `post_in` for postage.
///
/// The payout is a straight line but for the rounding of each percentage, which lifts or drops it by at most half a minor
/// unit each. So no price below the line's own answer for `target` less one unit a charge can do; from there the search
/// goes up. One more unit of price never adds more than one unit of payout, so a payout that misses by so many units
/// needs at least as many more of price: the search steps by the miss and can't step over the answer.
///
/// # Errors
/// [`Refusal::TakesAll`] when the percentages come to 100 or more and even a price of nothing doesn't reach the target;
/// [`Refusal::TooDear`] when the price would be over [`Money::MAX`].
pub fn invert(schedule: &Schedule, post_in: Money, target: Money) -> Result<Money, Refusal> {
    if payout(schedule, Money::ZERO, post_in) >= target {
        return Ok(Money::ZERO);
    }
    let kept = schedule
        .whole_percentage()
        .map_or(0, |sum| sum.left().ten_thousandths());
    if kept == 0 {
        return Err(Refusal::TakesAll);
    }
    let mut price = i64::try_from(lower_bound(schedule, post_in, target, i128::from(kept)))
        .map_err(|_| Refusal::TooDear)?
        .max(0);
    loop {
        let tried = Money::from_minor(price).map_err(|_| Refusal::TooDear)?;
        let short = target.minor() - payout(schedule, tried, post_in).minor();
        if short <= 0 {
            return Ok(tried);
        }
        price += short;
    }
}

/// A whole price, in minor units, that the answer can't be under: the unrounded line solved for the target less one
/// minor unit a charge. `kept` is what the percentages leave of the price, in ten-thousandths of a percent.
fn lower_bound(schedule: &Schedule, post_in: Money, target: Money, kept: i128) -> i128 {
    let whole = i128::from(Rate::HUNDRED.ten_thousandths());
    // All in minor units times `whole`: exact.
    let mut at_nothing = i128::from(post_in.minor()) * whole;
    let mut slack = 0;
    for charge in &schedule.charges {
        slack += whole;
        at_nothing -= match (charge.amount, charge.base) {
            (Amount::Flat(flat), _) => i128::from(flat.minor()) * whole,
            (Amount::Percent(_), Base::Price) => 0,
            (Amount::Percent(rate), Base::PriceAndPost) => {
                i128::from(post_in.minor()) * i128::from(rate.ten_thousandths())
            }
        };
    }
    (i128::from(target.minor()) * whole - slack - at_nothing).div_euclid(kept)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::Charge;

    fn check(charges: Vec<Charge>, post_in: i64, target: i64, expected: Result<i64, Refusal>) {
        let found = invert(
            &Schedule { charges },
            Money::new(post_in),
            Money::new(target),
        );
        assert_eq!(found.map(Money::minor), expected);
    }

    fn percent(rate: &str, base: Base) -> Charge {
        Charge::percent("Sale", Rate::parse(rate).unwrap(), base)
    }

    #[test]
    fn the_least_price_is_found_or_refused() {
        check(vec![], 0, 1500, Ok(1500));
        check(vec![], 450, 300, Ok(0));
        // 27.20 of 30.50 on the worked dress. At 25.99 the cut is 3.05 + 0.25 as well, so that pays 27.19.
        let quayside = || {
            vec![
                percent("10", Base::PriceAndPost),
                Charge::flat("Order", Money::new(25)),
            ]
        };
        check(quayside(), 450, 2720, Ok(2600));
        check(vec![percent("15", Base::Price)], 0, 2210, Ok(2600));
        check(vec![Charge::flat("Order", Money::new(25))], 0, 0, Ok(25));
        check(
            vec![percent("100", Base::Price)],
            0,
            1,
            Err(Refusal::TakesAll),
        );
        check(vec![percent("100", Base::Price)], 0, 0, Ok(0));
        check(
            vec![percent("99.9999", Base::Price)],
            0,
            Money::MAX.minor(),
            Err(Refusal::TooDear),
        );
        check(vec![], 0, Money::MAX.minor(), Ok(Money::MAX.minor()));
        check(
            vec![percent("1", Base::Price)],
            0,
            Money::MAX.minor(),
            Err(Refusal::TooDear),
        );
    }

    #[test]
    fn a_venue_that_takes_nearly_all_is_still_answered() {
        // Half a unit short of rounding up: at 50 % the cut of 1 is already 1, so two units pay the first one.
        check(vec![percent("50", Base::Price)], 0, 1, Ok(2));
        // 99.9 % of 500 is 499.5, rounded to 500; of 499 is 498.501, rounded to 499: the first unit comes at 501.
        check(vec![percent("99.9", Base::Price)], 0, 1, Ok(501));
    }
}
