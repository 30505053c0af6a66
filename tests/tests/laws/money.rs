//! Laws of amounts, rates and splits.

use haulwren_core::money::{
    Currency, Money, Rate, down_to_step, nearest_step_of, parse, percent_of, plain, split,
    up_to_step,
};
use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

const MOST: i64 = Money::MAX.minor();

fn currencies() -> impl Strategy<Value = Currency> {
    proptest::sample::select(Currency::all().collect::<Vec<_>>())
}

proptest! {
    #![proptest_config(crate::tries(512))]

    /// Largest remainder, defined afresh: whole shares first, then one unit each by remainder, ties by entry order.
    #[test]
    fn a_split_adds_up_and_is_fair(total in 0..=MOST, weights in vec(0_u64..1_000_000, 1..12)) {
        let parts = split(Money::new(total), &weights);
        prop_assert_eq!(parts.iter().sum::<Money>(), Money::new(total));
        let even = weights.iter().all(|weight| *weight == 0);
        let weights: Vec<i128> = weights.iter().map(|w| if even { 1 } else { i128::from(*w) }).collect();
        let whole: i128 = weights.iter().sum();
        let share = |at: usize| i128::from(total) * weights[at];
        let mut raised = Vec::new();
        for (at, part) in parts.iter().enumerate() {
            let extra = i128::from(part.minor()) - share(at) / whole;
            prop_assert!(!part.is_negative() && (0..=1).contains(&extra), "part {}", at);
            raised.push(extra == 1);
        }
        for up in 0..parts.len() {
            for left in 0..parts.len() {
                if raised[up] && !raised[left] {
                    let (gained, kept) = (share(up) % whole, share(left) % whole);
                    prop_assert!(gained > kept || (gained == kept && up < left));
                }
            }
        }
    }

    #[test]
    fn a_split_of_any_total_by_any_weights_adds_up(total in -MOST..=MOST, weights in vec(any::<u64>(), 1..9)) {
        let parts = split(Money::new(total), &weights);
        prop_assert_eq!(parts.len(), weights.len());
        prop_assert_eq!(parts.iter().sum::<Money>(), Money::new(total));
    }

    /// The nearest unit: no more than half away, and from exactly half the one further from nothing.
    #[test]
    fn a_percentage_is_the_nearest_unit(amount in -MOST..=MOST, parts in 0_u32..=1_000_000) {
        let rate = Rate::from_decimal(Decimal::new(i64::from(parts), 4)).unwrap();
        let found = i128::from(percent_of(Money::new(amount), rate).minor());
        let exact = i128::from(amount) * i128::from(parts);
        let off = found * 1_000_000 - exact;
        prop_assert!(off.abs() <= 500_000);
        prop_assert!(off.abs() < 500_000 || found.abs() * 1_000_000 > exact.abs());
    }

    #[test]
    fn steps_hem_an_amount_in(amount in -1_000_000_i64..1_000_000, step in 1_i64..5_000) {
        let (amount, step) = (Money::new(amount), Money::new(step));
        let (down, up) = (down_to_step(amount, step), up_to_step(amount, step));
        prop_assert!(down <= amount && amount <= up && up.minus(down) <= step);
        prop_assert_eq!((down.minor() % step.minor(), up.minor() % step.minor()), (0, 0));
        let near = nearest_step_of(amount, 1, 1, step);
        prop_assert!(near == down || near == up);
        prop_assert!(2 * near.minus(amount).abs().minor() <= step.minor());
    }

    #[test]
    fn what_is_shown_reads_back(minor in 0..=Money::TYPED_MAX.minor(), currency in currencies()) {
        let shown = plain(Money::new(minor), currency);
        prop_assert_eq!(parse(&shown, currency), Ok(Money::new(minor)));
        prop_assert_eq!(parse(&shown.replace('.', ","), currency), Ok(Money::new(minor)));
    }

    #[test]
    fn no_text_at_all_breaks_the_reading(text in any::<String>(), currency in currencies()) {
        if let Ok(money) = parse(&text, currency) {
            prop_assert!(Money::ZERO <= money && money <= Money::TYPED_MAX);
        }
        if let Ok(rate) = Rate::parse(&text) {
            prop_assert!(rate <= Rate::HUNDRED);
        }
    }

    #[test]
    fn digits_points_and_signs_never_break_the_reading(text in "[-0-9., ]{0,40}", currency in currencies()) {
        if let Ok(money) = parse(&text, currency) {
            prop_assert_eq!(parse(&plain(money, currency), currency), Ok(money));
        }
        if let Ok(rate) = Rate::parse(&text) {
            prop_assert_eq!(Rate::parse(&rate.to_string()), Ok(rate));
        }
    }
}
