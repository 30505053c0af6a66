//! The worked example, checked by hand: a summer dress at a driveway sale on three venues.

use super::*;
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::terms::{Base, Charge, Schedule};
use crate::worth::{Allowances, Sells};

struct Dress {
    usd: Currency,
    quayside: Schedule,
    marlpost: Schedule,
    townboard: Schedule,
}

impl Dress {
    fn new() -> Self {
        let charges = |charges| Schedule { charges };
        Self {
            usd: Currency::from_code("USD").unwrap(),
            quayside: charges(vec![
                Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
                Charge::flat("Order", Money::new(25)),
            ]),
            marlpost: charges(vec![Charge::percent(
                "Sale",
                Rate::percent(15),
                Base::Price,
            )]),
            townboard: Schedule::default(),
        }
    }

    fn case(&self, ask: Option<i64>) -> Case<'_> {
        let prices = Sells::new(
            Some(Money::new(18_00)),
            Money::new(26_00),
            Some(Money::new(34_00)),
        );
        Case {
            currency: self.usd,
            ask: ask.map(Money::new),
            sells: Some(prices.unwrap()),
            venue: Some(Selling {
                arrangement: Arrangement::BuyerAtCost,
                schedule: &self.quayside,
            }),
            postage: Some(Money::new(4_50)),
            packing: Money::new(30),
            allowances: Allowances::default(),
            rules: HouseRules {
                least_keep: Some(Money::new(8_00)),
                no_loss_if_low: true,
                cash_step: Money::new(50),
                reach: Rate::percent(50),
            },
        }
    }
}

fn judged(case: &Case<'_>) -> Judged {
    appraise(case).judged.unwrap()
}

fn flag(case: &Case<'_>) -> (Verdict, String) {
    let (verdict, flag) = judged(case).verdict.unwrap();
    (verdict, flag.sentence(case.currency).unwrap_or_default())
}

#[test]
fn the_dress_at_six_is_a_buy_and_every_figure_is_as_drawn() {
    let dress = Dress::new();
    let found = judged(&dress.case(Some(6_00)));
    assert_eq!(found.likely.buyer_pays, Money::new(30_50));
    assert_eq!(found.keep(), Money::new(9_90));
    assert_eq!(found.likely.before, Money::new(15_90));
    assert_eq!(found.likely.aside.total, Money::new(6_50));
    assert_eq!(
        found.likely.aside.lines.map(|line| line.2.minor()),
        [3_90, 1_56, 1_04]
    );
    assert_eq!(found.likely.packing, Money::new(30));
    assert_eq!(found.likely.posting.out, Money::new(4_50));
    assert_eq!(found.likely.cut(), Money::new(3_30));
    assert_eq!(found.low_keep(), Money::new(4_70));
    let ceiling = found.ceiling.unwrap();
    assert_eq!((ceiling.exact.minor(), ceiling.shown.minor()), (7_90, 7_50));
    assert_eq!(ceiling.bound_by, Rule::LeastKeep);
    assert_eq!(
        found.verdict,
        Some((Verdict::Buy, Flag::Try(Money::new(4_00))))
    );
}

#[test]
fn the_flag_says_what_to_do_at_each_ask() {
    let dress = Dress::new();
    let check = |ask, verdict, line: &str| {
        assert_eq!(
            flag(&dress.case(Some(ask))),
            (verdict, line.to_owned()),
            "asked {ask}"
        );
    };
    check(0, Verdict::Buy, "It is free");
    check(1_00, Verdict::Buy, "");
    check(6_00, Verdict::Buy, "Try 4");
    check(7_90, Verdict::Buy, "Try 4");
    check(7_91, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(9_00, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(15_80, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(15_81, Verdict::Leave, "You keep only 0.09");
    check(20_00, Verdict::Leave, "You would lose 4.10");
}

#[test]
fn the_other_venues_keep_as_drawn() {
    let dress = Dress::new();
    let mut case = dress.case(Some(6_00));
    case.venue = Some(Selling {
        arrangement: Arrangement::SellerPays,
        schedule: &dress.marlpost,
    });
    assert_eq!(judged(&case).keep(), Money::new(4_80));
    // Handed over at 15.00: no parcel, so neither postage nor packing, and an unknown postage is no obstacle.
    case.venue = Some(Selling {
        arrangement: Arrangement::HandedOver,
        schedule: &dress.townboard,
    });
    case.sells = Some(Sells::new(None, Money::new(15_00), None).unwrap());
    case.postage = None;
    assert_eq!(judged(&case).keep(), Money::new(5_25));
}

#[test]
fn a_rule_that_is_off_does_not_bind() {
    let dress = Dress::new();
    let mut case = dress.case(None);
    case.rules.least_keep = None;
    let by_low = judged(&case).ceiling.unwrap();
    assert_eq!(
        (by_low.exact.minor(), by_low.bound_by),
        (10_70, Rule::NoLossIfLow)
    );
    case.rules.no_loss_if_low = false;
    let by_loss = judged(&case).ceiling.unwrap();
    assert_eq!(
        (by_loss.exact.minor(), by_loss.bound_by),
        (15_90, Rule::NoLoss)
    );
}

#[test]
fn a_thing_can_be_too_dear_at_nothing() {
    let dress = Dress::new();
    let mut case = dress.case(Some(0));
    case.sells = Some(Sells::new(None, Money::new(2_00), None).unwrap());
    let found = judged(&case);
    assert_eq!(found.ceiling, Err(Rule::LeastKeep));
    assert_eq!(found.verdict, Some((Verdict::Leave, Flag::NotEvenFree)));
    assert_eq!(found.most_to_pay(), Money::ZERO);
}

#[test]
fn an_ask_between_the_step_and_the_ceiling_shows_the_ceiling_exactly() {
    let dress = Dress::new();
    let shown = |ask| judged(&dress.case(ask)).ceiling.unwrap().shown.minor();
    assert_eq!(shown(None), 7_50);
    assert_eq!(shown(Some(7_50)), 7_50);
    assert_eq!(shown(Some(7_51)), 7_90);
    assert_eq!(shown(Some(7_90)), 7_90);
    assert_eq!(shown(Some(7_91)), 7_50);
}

#[test]
fn what_is_missing_is_named_and_the_rest_still_counts() {
    let dress = Dress::new();
    let mut case = dress.case(None);
    let found = appraise(&case);
    assert_eq!(found.missing, [Missing::Ask]);
    let sums = found.judged.unwrap();
    assert_eq!((sums.verdict, sums.keep()), (None, Money::new(15_90)));
    assert!(sums.reasons.is_empty());
    case.postage = None;
    assert_eq!(appraise(&case).missing, [Missing::Postage, Missing::Ask]);
    case.sells = None;
    assert_eq!(
        appraise(&case).missing,
        [Missing::SellsFor, Missing::Postage, Missing::Ask]
    );
    case.venue = None;
    assert_eq!(
        appraise(&case).missing,
        [Missing::SellsFor, Missing::Venue, Missing::Ask]
    );
    assert_eq!(appraise(&case).judged, None);
}

#[test]
fn every_figure_opens_into_lines_that_sum_to_it() {
    let dress = Dress::new();
    let found = judged(&dress.case(Some(6_00)));
    let check = |figure, expected: i64, lines: &[&str]| {
        let why = found.why(figure);
        assert_eq!(
            why.iter().map(|line| line.amount).sum::<Money>().minor(),
            expected,
            "{figure:?}"
        );
        let shown: Vec<String> = why
            .iter()
            .map(|line| match line.working(dress.usd) {
                Some(working) => format!("{} {}: {working}", line.label(), line.amount.minor()),
                None => format!("{} {}", line.label(), line.amount.minor()),
            })
            .collect();
        assert_eq!(shown, lines, "{figure:?}");
    };
    check(
        Figure::BuyerPays,
        3050,
        &["Its own price 2600", "Postage from the buyer 450"],
    );
    check(Figure::YouPay, 600, &["You pay 600"]);
    let before = [
        "Buyer pays 3050",
        "Venue\u{2019}s cut -330",
        "Postage -450",
        "Packing -30",
        "Set aside -650",
    ];
    check(Figure::BeforePurchase, 1590, &before);
    check(
        Figure::Keep,
        990,
        &[&before[..], &["You pay -600"]].concat(),
    );
    check(Figure::Cut, 330, &["Sale 305: 10 % of 30.50", "Order 25"]);
    check(
        Figure::SetAside,
        650,
        &[
            "For things that never sell 390: 15 % of 26.00",
            "For offers 156: 6 % of 26.00",
            "For returns 104: 4 % of 26.00",
        ],
    );
    check(
        Figure::Ceiling,
        750,
        &[
            "Left before you buy 1590",
            "The least you keep -800",
            "Down to the cash step -40: steps of 0.50",
        ],
    );
    check(
        Figure::LowKeep,
        470,
        &[
            "Buyer pays 2250",
            "Venue\u{2019}s cut -250",
            "Postage -450",
            "Packing -30",
            "Set aside -450",
            "You pay -600",
        ],
    );
    check(Figure::Packing, 30, &["Packing 30"]);
    check(Figure::Postage, 450, &["Postage 450"]);
}

#[test]
fn the_reasons_name_each_rule_and_end_with_the_ceiling() {
    let dress = Dress::new();
    let check = |ask, expected: &[&str]| {
        let said: Vec<String> = judged(&dress.case(Some(ask)))
            .reasons
            .into_iter()
            .map(|r| r.sentence(dress.usd))
            .collect();
        assert_eq!(said, expected, "asked {ask}");
    };
    check(
        6_00,
        &[
            "You keep 9.90, at least 8.00.",
            "At 18.00 you keep 4.70.",
            "The ask is within 7.50, the most to pay.",
        ],
    );
    check(
        9_00,
        &[
            "You keep 6.90, and the least is 8.00.",
            "At 18.00 you keep 1.70.",
            "The most to pay is 7.50, and sellers come down by up to 50 %.",
        ],
    );
    check(
        20_00,
        &[
            "The least you keep is 8.00, and this is a loss.",
            "At 18.00 you lose 9.30.",
            "At 26.00 you lose 4.10.",
            "The most to pay is 7.50, and sellers come down by 50 % at most.",
        ],
    );
}
