//! What is owed without a sale, and what comes back of one.

use super::*;

fn venue() -> Schedule {
    let listing = Charge {
        scope: Scope::Listing,
        owed_unsold: true,
        ..Charge::flat("Listing", m(20))
    };
    let share = Charge {
        refund: Refund::Returned,
        ..percent("10", Base::Price)
    };
    let order = Charge {
        scope: Scope::Order,
        refund: Refund::ReturnedLess(m(10)),
        ..flat(30)
    };
    let shop = Charge {
        scope: Scope::Month,
        ..Charge::flat("Shop", m(15_00))
    };
    let tax = Charge {
        scope: Scope::Month,
        ..of_charges("20", &[4])
    };
    Schedule::of(vec![listing, share, order, shop, tax])
}

fn amounts(found: &Charges) -> Vec<(&str, i64)> {
    let lines = found.lines.iter();
    lines
        .map(|line| (line.label.as_str(), line.amount.minor()))
        .collect()
}

#[test]
fn charges_by_the_month_are_in_no_sale() {
    assert_eq!(venue().check(), Ok(()));
    check(&venue(), &sale(26_00, 0), &[20, 2_60, 30]);
    let monthly = monthly(&venue());
    assert_eq!(amounts(&monthly), [("Shop", 15_00), ("Tax on fees", 3_00)]);
    assert_eq!(monthly.total, m(18_00));
}

#[test]
fn a_listing_is_owed_though_nothing_sells() {
    let owed = unsold(&venue(), &sale(26_00, 0));
    assert_eq!(amounts(&owed), [("Listing", 20)]);
    assert_eq!(owed.total, m(20));
}

#[test]
fn each_charge_comes_back_by_its_own_rule() {
    let back = refund(&venue(), &sale(26_00, 0));
    assert_eq!(amounts(&back), [("Sale", 2_60), ("Order", 20)]);
    assert_eq!(back.total, m(2_80));
    let said = |at: usize| back.lines[at].working(usd());
    assert_eq!(
        (said(0), said(1)),
        (None, Some("0.30 less 0.10".to_owned()))
    );
}

#[test]
fn of_a_group_only_what_was_charged_comes_back() {
    let limited = |refunds: [Refund; 2], least, most| {
        let [first, second] = refunds;
        Schedule {
            charges: vec![
                Charge {
                    refund: first,
                    ..percent("10", Base::Price)
                },
                Charge {
                    refund: second,
                    ..percent("5", Base::Price)
                },
            ],
            groups: vec![group(&[1, 2], least, most)],
        }
    };
    let check = |refunds, least, most, price, expected: &[i64]| {
        let back = refund(&limited(refunds, least, most), &sale(price, 0));
        let found: Vec<i64> = back.lines.iter().map(|line| line.amount.minor()).collect();
        assert_eq!(found, expected);
    };
    let both = [Refund::Returned, Refund::Returned];
    let one = [Refund::Returned, Refund::Kept];
    // 6.00 and 3.00, together at most 6.00: 4.00 and 2.00.
    check(both, None, Some(6_00), 60_00, &[4_00, 2_00]);
    check(one, None, Some(6_00), 60_00, &[4_00]);
    check(both, None, Some(0), 60_00, &[]);
    // 0.40 and 0.20, together at least 1.00: 0.67 and 0.33.
    check(one, Some(1_00), None, 4_00, &[67]);
    check(both, Some(1_01), None, 0, &[51, 50]);
    let less = [Refund::ReturnedLess(m(70)), Refund::ReturnedLess(m(70))];
    check(less, None, Some(6_00), 10_00, &[30]);
}

#[test]
fn a_limit_on_charges_by_the_month_holds_by_the_month() {
    let by_month = |charge| Charge {
        scope: Scope::Month,
        ..charge
    };
    let schedule = Schedule {
        charges: vec![by_month(flat(8_00)), by_month(flat(5_00)), flat(30)],
        groups: vec![group(&[1, 2], None, Some(10_00))],
    };
    assert_eq!(schedule.check(), Ok(()));
    let monthly = monthly(&schedule);
    assert_eq!(
        amounts(&monthly),
        [("Order", 8_00), ("Order", 5_00), ("Together", -3_00)]
    );
    check(&schedule, &sale(26_00, 0), &[30]);
}
