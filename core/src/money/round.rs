//! Every rounding of money, each named by its rule. A sum is rounded once, at its end.

use rust_decimal::{Decimal, RoundingStrategy};

use super::{Money, Rate};

/// Rounds to so many decimals, exactly half away from zero: 24.785 gives 24.79, −0.025 gives −0.03.
pub fn half_away(value: Decimal, decimals: u32) -> Decimal {
    value.round_dp_with_strategy(decimals, RoundingStrategy::MidpointAwayFromZero)
}

/// A percentage of an amount, to the minor unit, half away from zero, once.
pub fn percent_of(amount: Money, rate: Rate) -> Money {
    let scaled = i128::from(amount.minor()) * i128::from(rate.ten_thousandths());
    from_ratio(scaled, i128::from(Rate::HUNDRED.ten_thousandths()))
}

/// The greatest whole number of steps not over the amount. A step of nothing leaves the amount as it is.
pub fn down_to_step(amount: Money, step: Money) -> Money {
    match step.minor() {
        ..=0 => amount,
        step => Money::capped(amount.minor().div_euclid(step) * step),
    }
}

/// The least whole number of steps not under the amount. A step of nothing leaves the amount as it is.
pub fn up_to_step(amount: Money, step: Money) -> Money {
    down_to_step(amount.negated(), step).negated()
}

/// The fraction `numerator / denominator` of the amount, to the nearest whole number of steps, half away from zero. The
/// fraction is not rounded first. A step of nothing counts as one minor unit, a denominator of nothing as one.
pub fn nearest_step_of(amount: Money, numerator: u32, denominator: u32, step: Money) -> Money {
    let step = i128::from(step.minor().max(1));
    let scaled = i128::from(amount.minor()) * i128::from(numerator);
    let steps = nearest(scaled, i128::from(denominator.max(1)) * step);
    capped(steps * step)
}

/// The mean of amounts by their weights, to the minor unit, half away from zero, once. `None` when all weights are nothing.
pub fn weighted_mean(parts: &[(Money, u32)]) -> Option<Money> {
    let (mut sum, mut whole) = (0_i128, 0_i128);
    for (amount, weight) in parts {
        sum += i128::from(amount.minor()) * i128::from(*weight);
        whole += i128::from(*weight);
    }
    (whole > 0).then(|| from_ratio(sum, whole))
}

/// Is `reached` at least what is left of `amount` once `rate` percent of it is taken off? Compared exactly.
pub fn left_after_reaches(reached: Money, amount: Money, rate: Rate) -> bool {
    let whole = i128::from(Rate::HUNDRED.ten_thousandths());
    let left = i128::from(rate.left().ten_thousandths());
    i128::from(reached.minor()) * whole >= i128::from(amount.minor()) * left
}

/// The ratio as whole minor units, half away from zero.
fn from_ratio(numerator: i128, denominator: i128) -> Money {
    capped(nearest(numerator, denominator))
}

/// The whole number nearest to a ratio with a positive denominator, half away from zero. For sums that are worked out in
/// parts of a minor unit and rounded once, at their end; numerator and denominator stay under 10^37.
pub fn nearest(numerator: i128, denominator: i128) -> i128 {
    let size = (2 * numerator.abs() + denominator) / (2 * denominator);
    size * numerator.signum()
}

/// So many minor units as money, the nearest amount within its range.
pub fn capped(minor: i128) -> Money {
    let most = i128::from(Money::MAX.minor());
    // In range after the clamp; a sum of typed amounts never reaches the clamp.
    i64::try_from(minor.clamp(-most, most)).map_or(Money::MAX, Money::capped)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_is_rounded_half_away_from_zero_once() {
        let check = |minor, rate: &str, expected| {
            let found = percent_of(Money::new(minor), Rate::parse(rate).unwrap());
            assert_eq!(found, Money::new(expected), "{rate} % of {minor}");
        };
        check(3050, "10", 305);
        check(5, "10", 1);
        check(4, "10", 0);
        check(-5, "10", -1);
        check(1, "50", 1);
        check(1, "49.9999", 0);
        check(0, "100", 0);
        check(1_000_000_000_000_000, "100", 1_000_000_000_000_000);
        check(1_000_000_000_000_000, "33.3333", 333_333_000_000_000);
    }

    #[test]
    fn steps_go_down_up_or_to_the_nearest() {
        let m = Money::new;
        assert_eq!(down_to_step(m(790), m(50)), m(750));
        assert_eq!(down_to_step(m(750), m(50)), m(750));
        assert_eq!(down_to_step(m(-1), m(50)), m(-50));
        assert_eq!(down_to_step(m(790), m(0)), m(790));
        assert_eq!(up_to_step(m(751), m(50)), m(800));
        assert_eq!(up_to_step(m(750), m(50)), m(750));
        assert_eq!(nearest_step_of(m(790), 1, 2, m(100)), m(400));
        assert_eq!(nearest_step_of(m(700), 1, 2, m(100)), m(400));
        assert_eq!(nearest_step_of(m(699), 1, 2, m(100)), m(300));
        assert_eq!(nearest_step_of(m(500), 2, 3, m(100)), m(300));
    }

    #[test]
    fn a_mean_is_rounded_half_away_from_zero_once() {
        let check = |parts: &[(i64, u32)], expected: Option<i64>| {
            let parts: Vec<(Money, u32)> = parts
                .iter()
                .map(|(minor, weight)| (Money::new(*minor), *weight))
                .collect();
            assert_eq!(weighted_mean(&parts), expected.map(Money::new), "{parts:?}");
        };
        check(&[(450, 5000), (551, 5000)], Some(501));
        check(&[(-450, 1), (-551, 1)], Some(-501));
        check(&[(1, 1), (2, 2)], Some(2));
        check(&[(700, 0), (300, 7)], Some(300));
        check(&[(300, 0)], None);
        check(&[], None);
    }

    #[test]
    fn reach_is_compared_without_rounding() {
        let reaches = |ceiling, ask, rate: &str| {
            left_after_reaches(
                Money::new(ceiling),
                Money::new(ask),
                Rate::parse(rate).unwrap(),
            )
        };
        assert!(reaches(790, 1580, "50"));
        assert!(!reaches(790, 1581, "50"));
        assert!(!reaches(0, 1, "99.9999"));
        assert!(reaches(0, 1, "100"));
    }
}
