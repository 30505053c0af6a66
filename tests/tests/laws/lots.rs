//! Laws of lots: how a price is shared over things.

use haulwren_core::lot::{Method, Piece, Split, allocate};
use haulwren_core::measure::{Quantity, Weight, WeightUnit};
use haulwren_core::money::Money;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use std::ops::Range;

fn maybe(most: i64) -> impl Strategy<Value = Option<Money>> {
    prop::option::weighted(0.9, (-20..=most).prop_map(Money::new))
}

fn weights() -> impl Strategy<Value = Option<Weight>> {
    let units = vec![
        WeightUnit::Ounce,
        WeightUnit::Pound,
        WeightUnit::Gram,
        WeightUnit::Kilogram,
    ];
    let weight =
        (0_u16..2_000, select(units)).prop_map(|(amount, unit)| Quantity::whole(amount, unit));
    prop::option::weighted(0.9, weight)
}

fn pieces() -> impl Strategy<Value = Piece> {
    let fixed = prop::option::weighted(0.2, (-5_i64..2_000).prop_map(Money::new));
    (
        maybe(9_000),
        maybe(9_000),
        weights(),
        fixed,
        prop::bool::weighted(0.15),
    )
        .prop_map(|(price, keep, weight, fixed, kept)| Piece {
            price: price.map(Money::abs),
            keep,
            weight,
            fixed,
            kept,
        })
}

/// What a piece counts for, in exact whole numbers; by weight in 10^-13 g.
fn counts(piece: &Piece, by: Method) -> u128 {
    let amount =
        |money: Option<Money>| u128::try_from(money.map_or(0, Money::minor).max(0)).unwrap();
    match by {
        Method::Evenly => 1,
        Method::ByPrice => amount(piece.price),
        Method::ByKeep => amount(piece.keep),
        Method::ByWeight => {
            let of = piece.weight.unwrap();
            let micrograms = match of.unit() {
                WeightUnit::Ounce => 28_349_523_125_u128,
                WeightUnit::Pound => 453_592_370_000,
                WeightUnit::Gram => 1_000_000_000,
                WeightUnit::Kilogram => 1_000_000_000_000,
            };
            u128::from(of.ten_thousandths()) * micrograms
        }
        Method::ByHand => 0,
    }
}

/// The places of those that what is left over the fixed shares is split over.
fn free(pieces: &[Piece]) -> Vec<usize> {
    let is_free = |at: &usize| pieces[*at].fixed.is_none() && !pieces[*at].kept;
    (0..pieces.len()).filter(is_free).collect()
}

/// Any lot: its total, how it is to be shared, its things and how many are not sorted yet.
fn lots(things: Range<usize>) -> impl Strategy<Value = (i64, Method, Vec<Piece>, u16)> {
    (
        0_i64..1_000_000,
        select(&Method::ALL[..]),
        vec(pieces(), things),
        0_u16..5,
    )
}

fn amounts(split: &Split) -> Vec<i64> {
    split
        .shares
        .iter()
        .map(|share| share.amount.minor())
        .collect()
}

proptest! {
    #![proptest_config(crate::tries(1_024))]

    #[test]
    fn shares_add_up_are_never_under_nothing_and_leave_out_what_is_kept((total, method, pieces, unsorted) in lots(0..9)) {
        let split = allocate(Money::new(total), method, &pieces, unsorted);
        let all = split.on_things().plus(split.on_unsorted()).plus(split.not_yet_shared);
        prop_assert_eq!(all.minor(), total);
        prop_assert_eq!(split.shares.len(), pieces.len());
        prop_assert_eq!(split.unsorted.len(), usize::from(unsorted));
        prop_assert!(split.unsorted.iter().all(|share| !share.is_negative()));
        for (piece, share) in pieces.iter().zip(&split.shares) {
            prop_assert!(!share.amount.is_negative());
            prop_assert_eq!((share.fixed, share.kept), (piece.fixed.is_some(), piece.kept));
            match piece.fixed {
                Some(fixed) => prop_assert_eq!(share.amount, fixed.max(Money::ZERO)),
                None if piece.kept || split.by == Method::ByHand => prop_assert_eq!(share.amount, Money::ZERO),
                None => {}
            }
        }
        // Something is left over only by hand, when all is fixed or kept, or when too much is fixed.
        let can_carry = method != Method::ByHand && free(&pieces).len() + usize::from(unsorted) > 0;
        prop_assert!(!can_carry || split.not_yet_shared <= Money::ZERO);
    }

    /// The quota rule (M. L. Balinski and H. P. Young, "Fair Representation", 1982; M): each share is its exact proportion, rounded down or up.
    #[test]
    fn each_share_is_within_one_unit_of_its_exact_proportion((total, method, pieces, unsorted) in lots(1..9)) {
        let split = allocate(Money::new(total), method, &pieces, unsorted);
        let fixed: i64 = pieces.iter().filter_map(|piece| piece.fixed).map(|fixed| fixed.minor().max(0)).sum();
        let free = free(&pieces);
        prop_assume!(split.by != Method::ByHand && total > fixed);
        let rest = u128::try_from(total - fixed).unwrap();
        let counted: Vec<u128> = free.iter().map(|at| counts(&pieces[*at], split.by)).collect();
        let whole = counted.iter().sum::<u128>() + u128::from(unsorted);
        prop_assume!(whole > 0);
        for (at, count) in free.iter().zip(&counted) {
            let share = u128::try_from(split.shares[*at].amount.minor()).unwrap();
            let low = rest * count / whole;
            let is_raised = split.spare.contains(at);
            prop_assert_eq!(share, low + u128::from(is_raised));
            prop_assert!(!is_raised || rest * count % whole > 0);
        }
    }

    /// Prices in another unit, or all of them doubled, share alike.
    #[test]
    fn only_proportions_matter(
        total in 0_i64..1_000_000,
        prices in vec(1_i64..9_000, 1..9),
        times in 2_i64..50,
    ) {
        let of = |factor: i64| {
            let priced = |price: &i64| Piece { price: Some(Money::new(price * factor)), ..Piece::default() };
            let pieces: Vec<Piece> = prices.iter().map(priced).collect();
            allocate(Money::new(total), Method::ByPrice, &pieces, 0)
        };
        prop_assert_eq!(of(1), of(times));
    }

    /// The dearer of two never carries less; of equals the first carries at most one unit more.
    #[test]
    fn the_dearer_never_carries_less(total in 0_i64..1_000_000, prices in vec(0_i64..50, 2..9)) {
        let priced = |price: &i64| Piece { price: Some(Money::new(*price)), ..Piece::default() };
        let pieces: Vec<Piece> = prices.iter().map(priced).collect();
        let shares = amounts(&allocate(Money::new(total), Method::ByPrice, &pieces, 0));
        for one in 0..prices.len() {
            for other in 0..prices.len() {
                if prices[one] > prices[other] {
                    prop_assert!(shares[one] >= shares[other]);
                } else if prices[one] == prices[other] && one < other {
                    prop_assert!((0..=1).contains(&(shares[one] - shares[other])));
                }
            }
        }
    }

    /// While something is not known of one, or things are to be sorted, all share evenly, and it is said.
    #[test]
    fn what_is_not_known_is_shared_evenly((total, method, pieces, unsorted) in lots(1..9)) {
        let split = allocate(Money::new(total), method, &pieces, unsorted);
        prop_assert_eq!(split.asked, method);
        let free = free(&pieces);
        let lacks = free.iter().any(|at| !split.shares[*at].known) || (unsorted > 0 && method != Method::Evenly);
        if method != Method::ByHand && lacks {
            prop_assert_eq!(split.by, Method::Evenly);
            let mut carried: Vec<i64> = free.iter().map(|at| split.shares[*at].amount.minor()).collect();
            carried.extend(split.unsorted.iter().map(|share| share.minor()));
            let (most, least) = (carried.iter().max().unwrap(), carried.iter().min().unwrap());
            prop_assert!(most - least <= 1);
        }
    }
}
