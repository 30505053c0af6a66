//! Charges with conditions, judged before anything is known of the buyer.

use super::*;
use crate::money::Rate;
use crate::terms::{Amount, Base, Charge, Step};

fn share(label: &str, percent: u32, when: When) -> Charge {
    Charge {
        when,
        ..Charge::percent(label, Rate::percent(percent), Base::Price)
    }
}

fn in_region(name: &str) -> When {
    When {
        regions: vec![name.to_owned()],
        ..When::default()
    }
}

fn promoted(said: bool) -> When {
    When {
        promoted: Some(said),
        ..When::default()
    }
}

/// What is known: the kind, and how things usually sell.
type Outlook = (Option<KindId>, Usual);

fn check(schedule: &Schedule, (kind, usual): &Outlook, cut: i64, assumed: &[Assumed]) {
    let price = Money::new(100_00);
    let (settled, found) = settle_by(schedule, *kind, usual, price, Money::ZERO);
    assert_eq!((settled.cut.minor(), &found[..]), (cut, assumed));
    let lines: Money = settled.lines.iter().map(|line| line.amount).sum();
    assert_eq!(lines, settled.cut);
    assert_eq!(settled.payout, Money::new(100_00).minus(settled.cut));
}

fn usual(usual: Usual) -> Outlook {
    (None, usual)
}

/// 12 % for one region, 15 % for another: nothing known of the buyer once made a cut of 0.
#[test]
fn an_unknown_region_is_the_dearest() {
    let schedule = Schedule::of(vec![
        share("North", 12, in_region("North")),
        share("South", 15, in_region("South")),
    ]);
    let south = Assumed::Region(Some("South".to_owned()));
    check(&schedule, &Outlook::default(), 15_00, &[south]);
    let shares = |north, south| {
        usual(Usual {
            regions: Regions(vec![
                ("north".to_owned(), Rate::percent(north)),
                ("South".to_owned(), Rate::percent(south)),
            ]),
            ..Usual::default()
        })
    };
    // 0.6 × 12 + 0.4 × 15; the rest is elsewhere, where neither holds.
    check(&schedule, &shares(60, 40), 13_20, &[]);
    check(&schedule, &shares(50, 0), 6_00, &[]);
}

#[test]
fn a_promotion_that_nobody_said_is_the_dearer_way() {
    let schedule = Schedule::of(vec![
        share("Sale", 10, When::default()),
        share("Promotion", 8, promoted(true)),
    ]);
    check(
        &schedule,
        &Outlook::default(),
        18_00,
        &[Assumed::Promoted(true)],
    );
    let said = |promoted| {
        usual(Usual {
            promoted: Some(promoted),
            ..Usual::default()
        })
    };
    check(&schedule, &said(false), 10_00, &[]);
    check(&schedule, &said(true), 18_00, &[]);
    let without = Schedule::of(vec![share("Listing", 3, promoted(false))]);
    check(
        &without,
        &Outlook::default(),
        3_00,
        &[Assumed::Promoted(false)],
    );
}

#[test]
fn an_unknown_kind_is_the_dearest() {
    let [shoes, books] = [1, 2].map(|id| KindId(uuid::Uuid::from_u128(id)));
    let of = |kind| When {
        kinds: vec![kind],
        ..When::default()
    };
    let schedule = Schedule::of(vec![
        share("Shoes", 9, of(shoes)),
        share("Books", 14, of(books)),
    ]);
    check(
        &schedule,
        &Outlook::default(),
        14_00,
        &[Assumed::Kind(Some(books))],
    );
    let kind = |kind| (Some(kind), Usual::default());
    check(&schedule, &kind(shoes), 9_00, &[]);
    check(&schedule, &kind(KindId(uuid::Uuid::from_u128(3))), 0, &[]);
}

#[test]
fn running_sales_are_a_mean_over_the_usual_month() {
    let tiers = |by| {
        Schedule::of(vec![Charge::new(
            "Sale",
            Base::Price,
            Amount::Tiers {
                by,
                steps: vec![
                    Step::rate(Money::ZERO, Rate::percent(12)),
                    Step::rate(Money::new(1_000_00), Rate::percent(8)),
                ],
            },
        )])
    };
    let first = Assumed::Running(Money::ZERO, Period::Month);
    check(&tiers(Period::Month), &Outlook::default(), 12_00, &[first]);
    let monthly = |monthly| {
        usual(Usual {
            monthly: Some(Money::new(monthly)),
            ..Usual::default()
        })
    };
    check(&tiers(Period::Month), &monthly(0), 12_00, &[]);
    check(&tiers(Period::Month), &monthly(1_000_00), 12_00, &[]);
    // Half of a month's 2000 sells at 12 %, half at 8 %; of a year's 24,000 all but 1000 at 8 %: 8 + 4 / 24.
    check(&tiers(Period::Month), &monthly(2_000_00), 10_00, &[]);
    check(&tiers(Period::Year), &monthly(2_000_00), 8_17, &[]);
}

#[test]
fn terms_without_conditions_are_settled_as_ever() {
    let schedule = Schedule::of(vec![
        share("Sale", 10, When::default()),
        Charge::flat("Order", Money::new(25)),
    ]);
    let sale = Sale::of(Money::new(26_00), Money::new(4_50));
    let usual = Usual::default();
    let found = settle_by(&schedule, None, &usual, sale.price, sale.post_in);
    assert_eq!(found, (crate::terms::settle(&schedule, &sale), Vec::new()));
}
