//! The least price that reaches a payout, and the prices to skip.

use super::*;

fn finds(schedule: &Schedule, post_in: i64, target: i64, expected: Result<i64, Refusal>) {
    let found = invert(schedule, &sale(0, post_in), m(target)).map(Money::minor);
    assert_eq!(found, expected, "{schedule:?} {target}");
}

#[test]
fn the_least_price_is_found_or_refused() {
    let check = |charges, post_in, target, expected| {
        finds(&Schedule::of(charges), post_in, target, expected);
    };
    let most = Money::MAX.minor();
    check(vec![], 0, 15_00, Ok(15_00));
    check(vec![], 4_50, 3_00, Ok(0));
    // 27.20 of 30.50 on the worked dress. At 25.99 the cut is 3.05 + 0.25 as well, so that pays 27.19.
    let quayside = vec![percent("10", Base::PriceAndPost), flat(25)];
    check(quayside, 4_50, 27_20, Ok(26_00));
    check(vec![percent("15", Base::Price)], 0, 22_10, Ok(26_00));
    check(vec![flat(25)], 0, 0, Ok(25));
    let all = || vec![percent("100", Base::Price)];
    check(all(), 0, 1, Err(Refusal::TakesAll));
    check(all(), 0, 0, Ok(0));
    let nearly = vec![percent("99.9999", Base::Price)];
    check(nearly, 0, most, Err(Refusal::TooDear));
    check(vec![], 0, most, Ok(most));
    check(
        vec![percent("1", Base::Price)],
        0,
        most,
        Err(Refusal::TooDear),
    );
}

#[test]
fn a_venue_that_takes_nearly_all_is_still_answered() {
    // Half a unit short of rounding up: at 50 % the cut of 1 is already 1, so two units pay the first one.
    finds(&Schedule::of(vec![percent("50", Base::Price)]), 0, 1, Ok(2));
    // 99.9 % of 500 is 499.5, rounded to 500; of 499 is 498.501, rounded to 499: the first unit comes at 501.
    finds(
        &Schedule::of(vec![percent("99.9", Base::Price)]),
        0,
        1,
        Ok(501),
    );
}

#[test]
fn a_price_before_a_step_is_found_and_one_after_it_where_it_must_be() {
    // 10 % up to 49.99 pays 44.99 at most; from 50.00 on 20 % pays 40.00 and reaches 45.00 at 56.25.
    let schedule = Schedule::of(vec![brackets(&[(0, "10", 0), (50_00, "20", 0)])]);
    finds(&schedule, 0, 44_99, Ok(49_99));
    finds(&schedule, 0, 45_00, Ok(56_25));
    let with_most = Schedule {
        charges: vec![percent("20", Base::Price), of_charges("50", &[1])],
        groups: vec![group(&[1], None, Some(4_00))],
    };
    // From 20.00 on the fee is 4.00 at most, and its tax 2.00.
    finds(&with_most, 0, 14_00, Ok(20_00));
    finds(&with_most, 0, 15_00, Ok(21_00));
}

#[test]
fn prices_to_skip_lie_after_a_step_and_nowhere_else() {
    let check = |charges, up_to, expected: &[(i64, i64, i64)]| {
        let found = dead_zones(&Schedule::of(charges), &Sale::default(), m(up_to));
        let found: Vec<_> = found
            .iter()
            .map(|zone| (zone.from.minor(), zone.to.minor(), zone.better.minor()))
            .collect();
        assert_eq!(found, expected);
    };
    // Rounding alone, slices, a least and a most: none.
    check(
        vec![percent("10", Base::Price), percent("33.3", Base::Price)],
        100_00,
        &[],
    );
    check(
        vec![slices(&[(0, "10", 0), (50_00, "20", 0), (60_00, "1", 0)])],
        100_00,
        &[],
    );
    let limited = Charge {
        least: Some(m(50)),
        most: Some(m(5_00)),
        ..percent("10", Base::Price)
    };
    check(vec![limited], 100_00, &[]);
    // 44.99 at 49.99, and again at 56.24, of which 11.25 are taken.
    let bracket = || brackets(&[(0, "10", 0), (50_00, "20", 0)]);
    check(vec![bracket()], 100_00, &[(50_00, 56_23, 49_99)]);
    check(vec![bracket()], 52_00, &[(50_00, 52_00, 49_99)]);
    check(vec![bracket()], 49_99, &[]);
    // A flat sum under 10.00 is no step down; one from 10.00 on is.
    let range = |from, below| Charge {
        when: When {
            from,
            below,
            ..When::default()
        },
        ..flat(30)
    };
    check(vec![range(None, Some(m(10_00)))], 100_00, &[]);
    check(
        vec![range(Some(m(10_00)), None)],
        100_00,
        &[(10_00, 10_28, 9_99)],
    );
    check(
        vec![slices(&[(0, "10", 0), (10_00, "10", 30)])],
        100_00,
        &[(10_01, 1032, 10_00)],
    );
    // At 5 both tenths round up at once, and pay one unit less than at 4: noise, though a slice begins just there.
    let ten = || percent("10", Base::Price);
    let begins = slices(&[(0, "0", 0), (4, "1", 0)]);
    check(vec![ten(), ten(), begins], 50, &[]);
    // 9.9 is rounded to 10 and, in the bracket from 100 on, 11.4 to 11: a real fall, but no price pays less for it.
    check(vec![brackets(&[(0, "10", 0), (100, "11.4", 0)])], 5_00, &[]);
    // The second step is at the last price of the run.
    let once = vec![
        range(Some(m(10_00)), Some(m(10_06))),
        range(Some(m(10_05)), Some(m(10_06))),
    ];
    check(once, 100_00, &[(10_00, 10_05, 9_99)]);
    // One run for two steps, the second within the first.
    let twice = vec![range(Some(m(10_00)), None), range(Some(m(10_10)), None)];
    check(twice, 100_00, &[(10_00, 10_58, 9_99)]);
}
