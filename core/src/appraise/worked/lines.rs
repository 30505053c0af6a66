//! The lines and the reasons behind the figures of the dress.

use super::{Dress, judged};
use crate::appraise::*;
use crate::money::Money;

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
    check(
        Figure::Costs,
        810,
        &["Venue\u{2019}s cut 330", "Postage 450", "Packing 30"],
    );
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
