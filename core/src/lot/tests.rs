//! Splits case by case: what is gone by, what is fixed or kept, and what is left over.

use super::*;
use crate::money::Money;

fn priced(price: i64) -> Piece {
    Piece {
        price: Some(Money::new(price)),
        ..Piece::default()
    }
}

fn fixed(share: i64) -> Piece {
    Piece {
        fixed: Some(Money::new(share)),
        ..Piece::default()
    }
}

const KEPT: Piece = Piece {
    price: Some(Money::new(9_00)),
    keep: None,
    weight: None,
    fixed: None,
    kept: true,
};

/// Shares a total, and checks the shares, what is not yet shared, and the method gone by.
fn check(
    total: i64,
    method: Method,
    pieces: &[Piece],
    unsorted: u16,
    shares: &[i64],
    left: i64,
) -> Split {
    let split = allocate(Money::new(total), method, pieces, unsorted);
    let mut found: Vec<i64> = split
        .shares
        .iter()
        .map(|share| share.amount.minor())
        .collect();
    found.extend(split.unsorted.iter().map(|share| share.minor()));
    assert_eq!(found, shares);
    assert_eq!(split.not_yet_shared.minor(), left);
    let all = split.on_things().plus(split.on_unsorted());
    assert_eq!(all.plus(split.not_yet_shared).minor(), total);
    split
}

fn by(split: &Split) -> Method {
    split.by
}

/// The lot of three of the picture, for 10.00: coat 22.00, boots 12.00, lantern 8.00. Two spare cents: one to the coat, one to the boots.
#[test]
fn the_lot_of_the_picture_is_shared_by_price() {
    let pieces = [priced(22_00), priced(12_00), priced(8_00)];
    let split = check(10_00, Method::ByPrice, &pieces, 0, &[5_24, 2_86, 1_90], 0);
    assert_eq!((split.spare, split.by), (vec![0, 1], Method::ByPrice));
    let split = check(20_00, Method::Evenly, &pieces, 0, &[6_67, 6_67, 6_66], 0);
    assert_eq!(split.spare, [0, 1]);
}

#[test]
fn what_is_not_known_of_one_is_gone_by_for_none() {
    let pieces = [priced(22_00), Piece::default()];
    let split = check(10_00, Method::ByPrice, &pieces, 0, &[5_00, 5_00], 0);
    assert_eq!((by(&split), split.asked), (Method::Evenly, Method::ByPrice));
    let known: Vec<bool> = split.shares.iter().map(|share| share.known).collect();
    assert_eq!(known, [true, false]);
    // Nothing for all is as good as not known.
    let split = check(
        10_00,
        Method::ByPrice,
        &[priced(0), priced(0)],
        0,
        &[5_00, 5_00],
        0,
    );
    assert_eq!(by(&split), Method::Evenly);
    check(
        10_00,
        Method::ByPrice,
        &[priced(9_00), priced(0)],
        0,
        &[10_00, 0],
        0,
    );
    // What is not known of a thing that is fixed or kept stands in nobody's way.
    let pieces = [priced(2_00), fixed(1_00), KEPT, priced(1_00)];
    let split = check(
        10_00,
        Method::ByPrice,
        &pieces,
        0,
        &[6_00, 1_00, 0, 3_00],
        0,
    );
    assert_eq!(by(&split), Method::ByPrice);
}

#[test]
fn by_keep_a_loss_counts_as_nothing_and_by_weight_units_mix() {
    let keep = |keep| Piece {
        keep: Some(Money::new(keep)),
        ..Piece::default()
    };
    check(
        6_00,
        Method::ByKeep,
        &[keep(8_00), keep(-3_00), keep(4_00)],
        0,
        &[4_00, 0, 2_00],
        0,
    );
    let weighs = |text: &str| Piece {
        weight: text.parse().ok(),
        ..Piece::default()
    };
    check(
        9_00,
        Method::ByWeight,
        &[weighs("1 lb"), weighs("8 oz")],
        0,
        &[6_00, 3_00],
        0,
    );
    check(
        3,
        Method::ByWeight,
        &[weighs("1000000 lb"), weighs("0.0001 g")],
        0,
        &[3, 0],
        0,
    );
}

#[test]
fn fixed_shares_come_first_and_may_miss() {
    check(
        10_00,
        Method::Evenly,
        &[fixed(4_00), priced(1), priced(1)],
        0,
        &[4_00, 3_00, 3_00],
        0,
    );
    check(
        10_00,
        Method::Evenly,
        &[fixed(4_00), fixed(5_00)],
        0,
        &[4_00, 5_00],
        1_00,
    );
    check(
        10_00,
        Method::Evenly,
        &[fixed(14_00), priced(1)],
        0,
        &[14_00, 0],
        -4_00,
    );
    check(
        10_00,
        Method::Evenly,
        &[fixed(-4_00), priced(1)],
        0,
        &[0, 10_00],
        0,
    );
    let split = check(
        10_00,
        Method::ByHand,
        &[fixed(4_00), priced(1)],
        0,
        &[4_00, 0],
        6_00,
    );
    assert_eq!(by(&split), Method::ByHand);
    check(
        10_00,
        Method::ByHand,
        &[fixed(8_00), fixed(4_00)],
        0,
        &[8_00, 4_00],
        -2_00,
    );
}

#[test]
fn what_is_kept_carries_nothing_unless_it_is_fixed() {
    check(10_00, Method::Evenly, &[KEPT, priced(1)], 0, &[0, 10_00], 0);
    let both = Piece {
        fixed: Some(Money::new(3_00)),
        ..KEPT
    };
    check(
        10_00,
        Method::Evenly,
        &[both, priced(1)],
        0,
        &[3_00, 7_00],
        0,
    );
    check(10_00, Method::Evenly, &[KEPT], 0, &[0], 10_00);
    check(10_00, Method::Evenly, &[], 0, &[], 10_00);
}

#[test]
fn what_is_not_sorted_yet_is_shared_evenly_for_the_time_being() {
    let split = check(10_00, Method::Evenly, &[], 3, &[3_34, 3_33, 3_33], 0);
    // Nobody can name it, so it is named by nobody.
    assert_eq!(split.spare, Vec::<usize>::new());
    let split = check(
        10_00,
        Method::ByPrice,
        &[priced(90_00)],
        1,
        &[5_00, 5_00],
        0,
    );
    assert_eq!(by(&split), Method::Evenly);
    check(
        10_00,
        Method::Evenly,
        &[fixed(4_00)],
        2,
        &[4_00, 3_00, 3_00],
        0,
    );
    check(
        10_00,
        Method::ByHand,
        &[fixed(4_00)],
        2,
        &[4_00, 0, 0],
        6_00,
    );
}

#[test]
fn a_total_below_nothing_is_on_no_thing() {
    check(-5_00, Method::Evenly, &[priced(1)], 1, &[0, 0], -5_00);
}
