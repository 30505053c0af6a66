//! The figures of the dress, its ceiling, and what is missing.

use super::{Dress, judged};
use crate::appraise::*;
use crate::money::Money;
use crate::postage::Arrangement;
use crate::worth::Sells;

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
fn the_other_venues_keep_as_drawn() {
    let dress = Dress::new();
    let mut case = dress.case(Some(6_00));
    case.venue = Some(Selling {
        arrangement: &Arrangement::SellerPays,
        schedule: &dress.marlpost,
        usual: super::USUAL,
    });
    assert_eq!(judged(&case).keep(), Money::new(4_80));
    // Handed over at 15.00: no parcel, so neither postage nor packing, and an unknown postage is no obstacle.
    case.venue = Some(Selling {
        arrangement: &Arrangement::HandedOver,
        schedule: &dress.townboard,
        usual: super::USUAL,
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
