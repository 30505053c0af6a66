//! Faults of a schedule, each with its place.

use super::*;

pub fn refused(charges: Vec<Charge>, expected: TermsError) {
    assert_eq!(Schedule::of(charges).check(), Err(expected));
}

pub fn fits(charges: Vec<Charge>) {
    assert_eq!(Schedule::of(charges).check(), Ok(()));
}

#[test]
fn a_faulty_charge_is_refused_with_the_place_of_the_fault() {
    let one = |charge, expected| refused(vec![flat(25), charge], expected);
    let position = 2;
    fits(vec![]);
    fits(vec![percent("10", Base::PriceAndPost), flat(25)]);
    one(Charge::flat(" ", m(0)), TermsError::NoLabel { position });
    one(
        Charge::flat(&"n".repeat(41), m(0)),
        TermsError::LongLabel { position },
    );
    one(flat(-1), TermsError::NegativeFlat { position });
    one(
        Charge::flat("Order", Money::MAX),
        TermsError::LargeFlat { position },
    );
    one(
        Charge {
            refund: Refund::ReturnedLess(m(-1)),
            ..flat(1)
        },
        TermsError::NegativeFlat { position },
    );
    one(
        Charge {
            least: Some(m(2)),
            most: Some(m(1)),
            ..flat(1)
        },
        TermsError::LeastOverMost { position },
    );
    refused(vec![flat(0); 13], TermsError::TooMany);
}

#[test]
fn a_table_goes_up() {
    let one = |charge, expected| refused(vec![charge], expected);
    let position = 1;
    fits(vec![brackets(&[(0, "10", 0), (1, "90", 5)])]);
    one(brackets(&[]), TermsError::NoSteps { position });
    one(
        slices(&[(5, "1", 0), (5, "2", 0)]),
        TermsError::StepsNotAscending { position },
    );
    one(
        slices(&[(-5, "1", 0)]),
        TermsError::NegativeFlat { position },
    );
    let long: Vec<(i64, &str, i64)> = (0..13).map(|from| (from, "1", 0)).collect();
    one(brackets(&long), TermsError::TooManySteps { position });
    let tiers = |by| {
        Charge::new(
            "Tiers",
            Base::Price,
            Amount::Tiers {
                by,
                steps: steps(&[(0, "1", 0)]),
            },
        )
    };
    fits(vec![tiers(Period::Year), tiers(Period::Year)]);
    refused(
        vec![tiers(Period::Year), tiers(Period::Month)],
        TermsError::TwoPeriods { position: 2 },
    );
}

#[test]
fn conditions_can_be_met() {
    let one = |when, expected| refused(vec![Charge { when, ..flat(1) }], expected);
    let position = 1;
    let range = |from, below| When {
        from,
        below,
        ..When::default()
    };
    one(
        range(Some(m(5)), Some(m(5))),
        TermsError::NoPrice { position },
    );
    one(range(None, Some(m(0))), TermsError::NoPrice { position });
    let regions = |named: &str, count| When {
        regions: vec![named.to_owned(); count],
        ..When::default()
    };
    one(regions(" ", 1), TermsError::BadRegion { position });
    one(regions("North", 61), TermsError::TooManyNamed { position });
}

#[test]
fn a_charge_is_taken_of_earlier_ones_of_its_sort() {
    let shop = || Charge {
        scope: Scope::Month,
        ..flat(15_00)
    };
    fits(vec![flat(25), of_charges("100", &[1])]);
    refused(
        vec![flat(25), of_charges("10", &[])],
        TermsError::OfNothing { position: 2 },
    );
    // Itself, and one that isn't there.
    for place in [2, 3] {
        refused(
            vec![flat(25), of_charges("10", &[1, place])],
            TermsError::OfLater { position: 2 },
        );
    }
    refused(
        vec![shop(), of_charges("20", &[1])],
        TermsError::MixedMonth { position: 2 },
    );
    let monthly = Charge {
        scope: Scope::Month,
        ..percent("20", Base::Price)
    };
    refused(vec![monthly], TermsError::MonthOfSale { position: 1 });
    let promoted = When {
        promoted: Some(true),
        ..When::default()
    };
    refused(
        vec![Charge {
            when: promoted,
            ..shop()
        }],
        TermsError::MonthOfSale { position: 1 },
    );
}

#[test]
fn a_faulty_group_is_refused_with_its_place() {
    let shop = Charge {
        scope: Scope::Month,
        ..flat(15_00)
    };
    let check = |groups: Vec<Group>, expected| {
        let charges = vec![flat(25), flat(30), shop.clone()];
        assert_eq!(Schedule { charges, groups }.check(), expected);
    };
    let good = || group(&[1], Some(1), Some(1));
    check(vec![good()], Ok(()));
    let second = |found, expected| check(vec![good(), found], Err(expected));
    let at = 2;
    second(
        Group {
            label: String::new(),
            ..group(&[2], Some(1), None)
        },
        TermsError::GroupLabel { group: at },
    );
    second(
        group(&[], Some(1), None),
        TermsError::GroupOfNone { group: at },
    );
    second(
        group(&[4], Some(1), None),
        TermsError::GroupOfNone { group: at },
    );
    second(
        group(&[1, 2], Some(1), None),
        TermsError::GroupsOverlap { group: at },
    );
    second(
        group(&[2, 3], Some(1), None),
        TermsError::GroupMixed { group: at },
    );
    for (least, most) in [(None, None), (Some(2), Some(1)), (Some(-1), None)] {
        second(
            group(&[2], least, most),
            TermsError::GroupLimits { group: at },
        );
    }
    check(vec![good(); 7], Err(TermsError::TooManyGroups));
}
