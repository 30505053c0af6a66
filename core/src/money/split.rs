//! Splitting an amount by weights so that the parts add up to it exactly.

use super::Money;

/// Splits `total` in proportion to `weights` by largest remainder: each part gets its share rounded toward nothing, and
/// the spare minor units go one each to the largest remainders, ties in the order given. The parts always sum to the
/// total, and none has the other sign. All weights nothing: evenly. No weights: no parts.
///
/// Raising a total can take a unit from one part (weights 6 6 2: 10 gives 4 4 2, and 11 gives 5 5 1). That is a known
/// trait of the rule, and is accepted: parts that always add up matter more here.
pub fn split(total: Money, weights: &[u64]) -> Vec<Money> {
    let weights: Vec<u128> = weights.iter().copied().map(u128::from).collect();
    split_finely(total, &weights).0
}

/// The greatest weight of [`split_finely`].
const HEAVIEST: u128 = 10_u128.pow(22);

/// The same as [`split`] by finer weights, 10^22 at most, which is any [`crate::measure::Weight`] in its finest count. Says too which
/// parts got a spare unit, by their places in the order given.
pub fn split_finely(total: Money, weights: &[u128]) -> (Vec<Money>, Vec<usize>) {
    let weights: Vec<u128> = weights
        .iter()
        .map(|weight| (*weight).min(HEAVIEST))
        .collect();
    let whole: u128 = weights.iter().sum();
    if whole == 0 {
        return match weights.len() {
            0 => (Vec::new(), Vec::new()),
            count => split_finely(total, &vec![1; count]),
        };
    }
    let size = u128::from(total.minor().unsigned_abs());
    let mut parts: Vec<u128> = Vec::with_capacity(weights.len());
    let mut remainders: Vec<(u128, usize)> = Vec::with_capacity(weights.len());
    for (at, weight) in weights.iter().enumerate() {
        // At most 10^15 × 10^22: inside 128 bits.
        let scaled = size * weight;
        parts.push(scaled / whole);
        remainders.push((scaled % whole, at));
    }
    // Equal remainders in the order given.
    remainders.sort_unstable_by_key(|(remainder, at)| (std::cmp::Reverse(*remainder), *at));
    let given: u128 = parts.iter().sum();
    let spare = usize::try_from(size - given).unwrap_or(usize::MAX);
    let mut raised: Vec<usize> = remainders.iter().take(spare).map(|(_, at)| *at).collect();
    raised.sort_unstable();
    for at in &raised {
        parts[*at] += 1;
    }
    let signed = |part: u128| {
        // A part is never over the total, which is in range.
        let part = i64::try_from(part).map_or(Money::MAX, Money::capped);
        if total.is_negative() {
            part.negated()
        } else {
            part
        }
    };
    (parts.into_iter().map(signed).collect(), raised)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(total: i64, weights: &[u64], expected: &[i64]) {
        let parts: Vec<i64> = split(Money::new(total), weights)
            .into_iter()
            .map(Money::minor)
            .collect();
        assert_eq!(parts, expected, "{total} by {weights:?}");
    }

    #[test]
    fn spare_units_go_to_the_largest_remainders_in_order() {
        check(1000, &[22, 12, 8], &[524, 286, 190]);
        check(100, &[1, 1, 1], &[34, 33, 33]);
        check(2, &[1, 1, 1], &[1, 1, 0]);
        check(-100, &[1, 1, 1], &[-34, -33, -33]);
        check(0, &[3, 1], &[0, 0]);
    }

    #[test]
    fn without_weights_the_split_is_even_or_empty() {
        check(5, &[0, 0], &[3, 2]);
        check(5, &[], &[]);
        check(5, &[0, 1], &[0, 5]);
    }

    #[test]
    fn the_largest_totals_and_weights_fit() {
        check(
            Money::MAX.minor(),
            &[u64::MAX, u64::MAX],
            &[500_000_000_000_000, 500_000_000_000_000],
        );
    }

    #[test]
    fn the_parts_that_got_a_spare_unit_are_named() {
        let check = |total, weights: &[u128], raised: &[usize]| {
            assert_eq!(split_finely(Money::new(total), weights).1, raised);
        };
        check(10_00, &[22, 12, 8], &[0, 1]);
        check(100, &[1, 1, 1], &[0]);
        check(90, &[1, 1, 1], &[]);
        check(5, &[], &[]);
        check(1, &[u128::MAX, 1], &[0]);
    }
}
