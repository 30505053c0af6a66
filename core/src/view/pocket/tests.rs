//! The card of the pictures' venue, checked by hand.

use super::*;
use crate::book::Command;
use crate::view::kit::{Kit, today, usd};

fn shown(pocket: &Pocket) -> Vec<(i64, Vec<Option<i64>>)> {
    let minor = |amounts: &[Option<Money>]| {
        amounts
            .iter()
            .map(|amount| amount.map(Money::minor))
            .collect()
    };
    pocket
        .rows
        .iter()
        .map(|(price, most)| (price.minor(), minor(most)))
        .collect()
}

#[test]
fn without_a_card_it_goes_by_the_usual_postage() {
    let card = pocket(&Kit::quayside().state, today()).unwrap();
    assert_eq!((card.venue.as_str(), &card.card), ("Quayside", &None));
    assert_eq!(card.columns, ["Postage 4.50"]);
    assert_eq!(
        card.rules,
        [
            "keep at least 8.00",
            "25 % set aside",
            "down to steps of 0.50"
        ]
    );
    let rows = shown(&card);
    assert_eq!(rows.len(), 12);
    // 65 % of the price less 0.45 of the postage, 0.25, 0.30 and 8.00.
    assert_eq!(rows[0], (5_00, vec![None]));
    assert_eq!(rows[4], (15_00, vec![Some(50)]));
    assert_eq!(rows[6], (25_00, vec![Some(7_00)]));
    assert_eq!(rows[11], (100_00, vec![Some(56_00)]));
}

/// The pocket card where a rough card asks these prices up to 12 oz and 1, 2 and 6 lb.
fn posted_at(prices: [i64; 4]) -> Pocket {
    let mut kit = Kit::quayside();
    let weights = ["12 oz", "1 lb", "2 lb", "6 lb"].map(|weight| weight.parse().unwrap());
    let steps: Vec<_> = weights.into_iter().zip(prices.map(Money::new)).collect();
    let card = RateCard::rough("Northmail", &steps).unwrap();
    kit.tell(&Command::SaveCard { id: None, card });
    pocket(&kit.state, today()).unwrap()
}

#[test]
fn a_card_gives_a_column_to_each_of_its_lightest_steps() {
    let card = posted_at([4_50, 5_50, 6_50, 12_00]);
    assert_eq!(card.card, Some(("Northmail".to_owned(), true)));
    assert_eq!(card.columns, ["12 oz", "1 lb", "2 lb", "6 lb"]);
    // 19.50 less 0.45, 0.55, 0.65 or 1.20, and 8.55.
    let most = [10_50, 10_00, 10_00, 9_50].map(Some).to_vec();
    assert_eq!(shown(&card)[7], (30_00, most));
}

#[test]
fn less_than_a_step_of_cash_is_worth_it_only_when_it_is_free() {
    let card = posted_at([5_50, 6_50, 9_00, 20_00]);
    // 9.75 less 0.25, 0.30 and 8.00, and 0.55, 0.65, 0.90 or 2.00.
    let most = vec![Some(50), Some(50), Some(0), None];
    assert_eq!(shown(&card)[4], (15_00, most));
}

#[test]
fn there_is_none_before_a_venue() {
    assert_eq!(pocket(&Kit::begun().state, today()), None);
    assert_eq!(usd().unit().minor(), 100);
}
