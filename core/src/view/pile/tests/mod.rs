//! The pile of the pictures, checked by hand, and what can be done to a pile.

mod laying;

use super::*;
use crate::appraise::{Figure, Flag, Verdict};
use crate::view::DecideDraft;
use crate::view::kit::{Kit, now, usd};

fn draft(name: &str, sells: &str, postage: &str, ask: &str) -> DecideDraft {
    DecideDraft {
        name: name.to_owned(),
        likely: sells.to_owned(),
        postage: postage.to_owned(),
        ask: ask.to_owned(),
        ..DecideDraft::default()
    }
}

/// Waxed jacket, wool cardigan, canvas satchel and plaster dog, 15.00 for all. Postage of the three that count: 6.50 + 4.50 + 6.50 = 17.50.
fn of_the_picture() -> Pile {
    let mut pile = Pile::default();
    for (name, sells, postage, ask) in [
        ("waxed jacket, child", "30", "6.50", "8"),
        ("wool cardigan", "26", "4.50", "6"),
        ("canvas satchel", "22", "6.50", "3"),
        ("plaster dog", "9", "16", "2"),
    ] {
        assert_eq!(pile.put(&draft(name, sells, postage, ask), 1), 1);
    }
    pile.says = "15".to_owned();
    pile
}

fn viewed(of: &Pile) -> PileView {
    pile(&Kit::quayside().state, of, now()).expect("a begun book")
}

#[test]
fn every_figure_is_as_drawn() {
    let view = viewed(&of_the_picture());
    let asked: Vec<_> = view
        .rows
        .iter()
        .map(|row| row.asked.unwrap().minor())
        .collect();
    assert_eq!(asked, [8_00, 6_00, 3_00, 2_00]);
    let most: Vec<_> = view.rows.iter().map(|row| row.up_to.clone()).collect();
    let up_to = |minor| UpTo::Most(Money::new(minor));
    assert_eq!(most[..3], [up_to(10_00), up_to(7_50), up_to(5_00)]);
    // 9.00 + 16.00 - 2.75 - 16.00 - 0.30 - 2.25
    assert_eq!(most[3], UpTo::Nothing(Money::new(3_70)));
    assert_eq!(
        (
            view.asked.map_or(0, Money::minor),
            view.ceiling.minor(),
            view.in_it
        ),
        (19_00, 23_00, 4)
    );
    assert_eq!(view.pay, Some(Money::new(15_00)));
    let judged = view.judged.unwrap();
    assert_eq!(judged.count, 3);
    let all = &judged.all;
    assert_eq!(all.likely.buyer_pays.minor(), 95_50);
    assert_eq!(all.keep().minor(), 32_30);
    assert_eq!(all.likely.aside.total.minor(), 19_50);
    assert_eq!(all.likely.packing.minor(), 90);
    assert_eq!(all.likely.posting.out.minor(), 17_50);
    assert_eq!(all.likely.cut().minor(), 10_30);
    assert_eq!(all.ceiling.unwrap().exact.minor(), 23_30);
    assert_eq!(
        all.verdict,
        Some((Verdict::Buy, Flag::Try(Money::new(10_00))))
    );
    let said: Vec<String> = all
        .reasons
        .iter()
        .map(|reason| reason.sentence(usd()))
        .collect();
    assert_eq!(
        said,
        [
            "You keep 32.30, at least 24.00.",
            "At 78.00 you keep 32.30.",
            "The ask is within 23.00, the most to pay.",
        ]
    );
}

#[test]
fn every_figure_opens_into_lines_that_sum_to_it() {
    let view = viewed(&of_the_picture());
    let sum = |lines: Vec<Why>| lines.iter().map(|line| line.amount.minor()).sum::<i64>();
    assert_eq!(sum(view.asked_lines()), 19_00);
    let rows: Vec<i64> = view.rows.iter().map(|row| sum(row.lines())).collect();
    assert_eq!(rows, [10_00, 7_50, 5_00, 3_70]);
    let judged = view.judged.unwrap();
    let check = |figure, sum: i64, lines: &[(&str, i64)]| {
        let why = judged.why(figure);
        let found: Vec<_> = why
            .iter()
            .map(|line| (line.label(), line.amount.minor()))
            .collect();
        assert_eq!(found, lines, "{figure:?}");
        assert_eq!(found.iter().map(|line| line.1).sum::<i64>(), sum);
    };
    let [jacket, cardigan, satchel] = ["waxed jacket, child", "wool cardigan", "canvas satchel"];
    let of_three = |amounts: [i64; 3]| {
        [
            (jacket, amounts[0]),
            (cardigan, amounts[1]),
            (satchel, amounts[2]),
        ]
    };
    check(
        Figure::Ceiling,
        23_00,
        &[
            &of_three([10_30, 7_90, 5_10])[..],
            &[("plaster dog", 0), ("Down to the cash step", -30)],
        ]
        .concat(),
    );
    check(Figure::BuyerPays, 95_50, &of_three([36_50, 30_50, 28_50]));
    check(Figure::Cut, 10_30, &of_three([3_90, 3_30, 3_10]));
    check(Figure::Postage, 17_50, &of_three([6_50, 4_50, 6_50]));
    check(Figure::Packing, 90, &of_three([30, 30, 30]));
    check(Figure::SetAside, 19_50, &of_three([7_50, 6_50, 5_50]));
    check(Figure::YouPay, 15_00, &[("You pay", 15_00)]);
    let parts = [
        ("Buyer pays", 95_50),
        ("Venue\u{2019}s cut", -10_30),
        ("Postage", -17_50),
        ("Packing", -90),
        ("Set aside", -19_50),
        ("You pay", -15_00),
    ];
    check(Figure::Keep, 32_30, &parts);
}

#[test]
fn the_verdict_goes_by_the_exact_sum_of_the_ceilings() {
    let check = |says: &str, word: Verdict, flag: &str, shown: i64| {
        let view = viewed(&Pile {
            says: says.to_owned(),
            ..of_the_picture()
        });
        let (verdict, line) = view.judged.as_ref().unwrap().all.verdict.unwrap();
        assert_eq!(
            (verdict, line.sentence(usd()).unwrap_or_default()),
            (word, flag.to_owned()),
            "{says}"
        );
        assert_eq!(view.ceiling.minor(), shown, "{says}");
    };
    check("22.50", Verdict::Buy, "Offer 12 first", 23_00);
    check("23.30", Verdict::Buy, "Offer 12 first", 23_30);
    check("23.31", Verdict::Haggle, "Open at 12, stop at 23.00", 23_00);
    check("46.60", Verdict::Haggle, "Open at 12, stop at 23.00", 23_00);
    check("46.61", Verdict::Leave, "You keep 0.69, under 24.00", 23_00);
    check("50", Verdict::Leave, "You\u{2019}d lose 2.70", 23_00);
    check("0", Verdict::Buy, "It is free", 23_00);
}

#[test]
fn what_is_left_out_counts_for_nothing_and_what_is_missing_is_named() {
    let mut pile = of_the_picture();
    pile.tick(0, false);
    pile.put(&draft("", "", "", ""), 1);
    let nameless = DecideDraft {
        ask: "4".to_owned(),
        ..DecideDraft::default()
    };
    pile.put(&nameless, 1);
    let view = viewed(&pile);
    assert_eq!(
        (
            view.in_it,
            view.asked.map_or(0, Money::minor),
            view.ceiling.minor()
        ),
        (4, 15_00, 13_00)
    );
    assert_eq!(view.judged.unwrap().count, 2);
    let last = &view.rows[4];
    assert_eq!(last.name, "unnamed");
    assert_eq!(
        last.up_to,
        UpTo::Unknown("Type what it sells for.".to_owned())
    );
    let empty = viewed(&Pile::default());
    assert_eq!((empty.judged, empty.pay, empty.rows.len()), (None, None, 0));
}

#[test]
fn a_pile_of_what_is_worth_nothing_is_not_even_free() {
    let mut pile = Pile::default();
    pile.put(&draft("plaster dog", "9", "16", ""), 2);
    let view = viewed(&pile);
    assert_eq!((view.ceiling, view.pay), (Money::ZERO, None));
    assert_eq!(view.judged.unwrap().all.verdict, None);
    pile.says = "0".to_owned();
    let view = viewed(&pile);
    assert_eq!(
        view.judged.unwrap().all.verdict,
        Some((Verdict::Leave, Flag::NotEvenFree))
    );
    assert_eq!(view.pay, Some(Money::ZERO));
}

/// A pile is judged by the sum of what its things are worth, and where that alone is passed, that is what is said: "You keep only 23.00"
/// once stood beside "at least 10.00".
#[test]
fn what_fails_is_what_is_named() {
    let view = viewed(&Pile {
        says: "47".to_owned(),
        ..of_the_picture()
    });
    let judged = view.judged.unwrap().all;
    let (_, flag) = judged.verdict.unwrap();
    assert_eq!(flag.sentence(usd()).unwrap(), "You keep 0.30, under 24.00");
}
