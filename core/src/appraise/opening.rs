//! The opening offer.

use super::Ceiling;
use crate::money::{Currency, Money, down_to_step, nearest_step_of};

/// The lower of half the ceiling and two thirds of the ask, to the nearest whole coin (a tie goes up), and never over the
/// ceiling shown. `None` where that is nothing, or not under the ask. A coin is one whole unit of the currency, or the
/// cash step where that is greater. The rule is common practice, no source.
pub(super) fn opening(
    ceiling: &Ceiling,
    ask: Money,
    step: Money,
    currency: Currency,
) -> Option<Money> {
    let coin = currency.unit().max(step);
    let half = nearest_step_of(ceiling.exact, 1, 2, coin);
    let two_thirds = nearest_step_of(ask, 2, 3, coin);
    // Rounding keeps the order, so the lower of the two rounded is the lower one rounded.
    let offer = half.min(two_thirds).min(down_to_step(ceiling.shown, coin));
    (offer > Money::ZERO && offer < ask).then_some(offer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::appraise::Rule;

    fn check(code: &str, exact: i64, shown: i64, ask: i64, step: i64, expected: Option<i64>) {
        let ceiling = Ceiling {
            exact: Money::new(exact),
            shown: Money::new(shown),
            bound_by: Rule::LeastKeep,
        };
        let currency = Currency::from_code(code).unwrap();
        let found = opening(&ceiling, Money::new(ask), Money::new(step), currency);
        assert_eq!(
            found.map(Money::minor),
            expected,
            "{shown} asked {ask} {code}"
        );
    }

    #[test]
    fn the_lower_of_half_the_ceiling_and_two_thirds_of_the_ask_in_whole_coins() {
        check("USD", 7_90, 7_50, 6_00, 50, Some(4_00));
        check("USD", 7_90, 7_50, 9_00, 50, Some(4_00));
        check("USD", 7_90, 7_50, 4_00, 50, Some(3_00));
        check("USD", 20_00, 20_00, 2_20, 50, Some(1_00));
        // A tie goes up: half of 9.00 is 4.50.
        check("USD", 9_00, 9_00, 9_00, 50, Some(5_00));
    }

    #[test]
    fn no_offer_that_is_nothing_or_not_under_the_ask() {
        check("USD", 90, 50, 60, 50, None);
        check("USD", 90_00, 90_00, 1_00, 50, None);
        check("USD", 90_00, 90_00, 0, 50, None);
    }

    #[test]
    fn a_coin_is_a_whole_unit_or_the_greater_cash_step() {
        check("JPY", 790, 700, 600, 100, Some(400));
        check("JPY", 790, 790, 600, 0, Some(395));
        check("KWD", 7_900, 7_500, 6_000, 500, Some(4_000));
        check("USD", 79_00, 75_00, 60_00, 5_00, Some(40_00));
    }

    #[test]
    fn an_offer_is_never_over_the_ceiling_that_an_odd_step_shows() {
        // Half of 1.10 is nearest to 1, which the 0.90 on the flag forbids.
        check("USD", 1_10, 90, 2_00, 30, None);
    }
}
