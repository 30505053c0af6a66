//! What the flag says about the dress.

use super::{Dress, flag, judged};
use crate::appraise::*;
use crate::money::{Money, Rate};
use crate::worth::Sells;

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
    check(6_00, Verdict::Buy, "Offer 4 first");
    check(7_90, Verdict::Buy, "Offer 4 first");
    check(7_91, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(9_00, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(15_80, Verdict::Haggle, "Open at 4, stop at 7.50");
    check(15_81, Verdict::Leave, "You keep 0.09, under 8.00");
    check(20_00, Verdict::Leave, "You\u{2019}d lose 4.10");
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
fn a_ceiling_of_nothing_is_no_price_to_haggle_for() {
    let dress = Dress::new();
    let mut case = dress.case(Some(1));
    case.rules.least_keep = Some(Money::new(15_90));
    case.rules.reach = Rate::HUNDRED;
    assert_eq!(judged(&case).ceiling.unwrap().exact, Money::ZERO);
    assert_eq!(
        flag(&case),
        (Verdict::Leave, "You keep 15.89, under 15.90".to_owned())
    );
    case.ask = Some(Money::ZERO);
    assert_eq!(flag(&case), (Verdict::Buy, "It is free".to_owned()));
}

#[test]
fn a_loss_if_it_sells_low_is_named_on_the_flag() {
    let dress = Dress::new();
    let mut case = dress.case(Some(12_00));
    case.rules.least_keep = None;
    case.rules.reach = Rate::ZERO;
    assert_eq!(
        flag(&case),
        (Verdict::Leave, "Sold low, you lose 1.30".to_owned())
    );
}

#[test]
fn a_ceiling_under_one_cash_step_is_shown_exactly() {
    let dress = Dress::new();
    let mut case = dress.case(Some(50));
    case.rules.least_keep = Some(Money::new(15_60));
    assert_eq!(judged(&case).most_to_pay(), Money::new(30));
    assert_eq!(flag(&case), (Verdict::Haggle, "Stop at 0.30".to_owned()));
}
