//! Laws of packing, against trying everything.

use std::collections::BTreeSet;

use haulwren_core::measure::{ParcelSize, Weight, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::packing::{Container, Fit, Form, Fragility, NODES, Piece, fit};
use proptest::collection::vec;
use proptest::prelude::*;

type Sides = [u16; 3];

fn inches([a, b, c]: Sides) -> ParcelSize {
    ParcelSize::inches(a, b, c)
}

fn rigid(sides: Sides) -> Piece {
    Piece {
        size: inches(sides),
        weight: Weight::whole(1, WeightUnit::Ounce),
        soft: false,
        fragility: Fragility::Sturdy,
    }
}

fn container(inside: Sides, form: Form) -> Container {
    Container {
        name: "Box".to_owned(),
        tare: Weight::whole(1, WeightUnit::Ounce),
        cost: Money::ZERO,
        inside: inches(inside),
        form,
    }
}

fn answer(pieces: &[Sides], inside: Sides, nodes: u32) -> Fit {
    let pieces: Vec<Piece> = pieces.iter().copied().map(rigid).collect();
    fit(&pieces, &container(inside, Form::Carton), nodes).fit
}

/// Tries every turn of every piece at every whole place, one piece after the other. A bit for each cell of at most 5 × 5 × 5.
fn brute(pieces: &[Sides], inside: Sides, taken: u128) -> bool {
    let Some((piece, rest)) = pieces.split_first() else {
        return true;
    };
    let turns = [
        [0, 1, 2],
        [0, 2, 1],
        [1, 0, 2],
        [1, 2, 0],
        [2, 0, 1],
        [2, 1, 0],
    ];
    let turns: BTreeSet<Sides> = turns.map(|turn| turn.map(|axis: usize| piece[axis])).into();
    for turn in turns {
        if (0..3).any(|axis| turn[axis] > inside[axis]) {
            continue;
        }
        for cell in cells([0, 1, 2].map(|axis| inside[axis] - turn[axis] + 1)) {
            let bit = |part: Sides| {
                let [x, y, z] = [0, 1, 2].map(|axis| cell[axis] + part[axis]);
                1_u128 << ((x * 5 + y) * 5 + z)
            };
            let all = cells(turn).map(bit).fold(0, |all, bit| all | bit);
            if taken & all == 0 && brute(rest, inside, taken | all) {
                return true;
            }
        }
    }
    false
}

fn cells([a, b, c]: Sides) -> impl Iterator<Item = Sides> {
    (0..a).flat_map(move |x| (0..b).flat_map(move |y| (0..c).map(move |z| [x, y, z])))
}

proptest! {
    #![proptest_config(crate::tries(256))]

    /// Whole sides need whole places only: pushed to a corner, every piece starts at a sum of sides.
    #[test]
    fn three_boxes_fit_when_some_way_of_all_fits(pieces in vec([1_u16..4, 1_u16..4, 1_u16..4], 1..4), inside in [2_u16..5, 2_u16..5, 2_u16..5]) {
        let fits = brute(&pieces, inside, 0);
        let expected = if fits { Fit::Fits } else { Fit::No };
        prop_assert_eq!(answer(&pieces, inside, 200_000), expected);
    }

    #[test]
    fn five_tiles_fit_when_some_way_of_all_fits(pieces in vec([1_u16..4, 1_u16..4, 1_u16..2], 4..6), inside in [2_u16..5, 3_u16..6, 1_u16..2]) {
        let fits = brute(&pieces, inside, 0);
        let expected = if fits { Fit::Fits } else { Fit::No };
        prop_assert_eq!(answer(&pieces, inside, 200_000), expected);
    }

    /// Cutting a search off never makes its answer wrong.
    #[test]
    fn a_small_budget_only_makes_it_unsure(pieces in vec([1_u16..5, 1_u16..5, 1_u16..5], 1..7), inside in [2_u16..8, 2_u16..8, 2_u16..8], nodes in 0_u32..500) {
        let (short, long) = (answer(&pieces, inside, nodes), answer(&pieces, inside, NODES));
        prop_assert!(short == Fit::MayFit || long == Fit::MayFit || short == long);
    }

    #[test]
    fn more_room_or_fewer_pieces_never_turn_yes_to_no(pieces in vec([1_u16..7, 1_u16..7, 1_u16..7], 1..6), inside in [2_u16..9, 2_u16..9, 2_u16..9], more in 0_u16..4) {
        if answer(&pieces, inside, NODES) == Fit::Fits {
            let [a, b, c] = inside;
            prop_assert_ne!(answer(&pieces, [c, a + more, b], NODES), Fit::No);
            prop_assert_ne!(answer(&pieces[1..], inside, NODES), Fit::No);
        }
    }

    /// What lies in a mailer is as thick as its parcel, and never thicker than the mailer may become.
    #[test]
    fn a_mailer_is_as_thick_as_what_is_in_it(pieces in vec(([1_u16..15, 1_u16..15, 1_u16..5], any::<bool>()), 1..4), inside in [6_u16..20, 6_u16..20, 1_u16..6]) {
        let pieces: Vec<Piece> = pieces.iter().map(|(sides, soft)| Piece { soft: *soft, ..rigid(*sides) }).collect();
        let found = fit(&pieces, &container(inside, Form::Mailer), NODES);
        prop_assert_ne!(found.fit, Fit::MayFit);
        prop_assert!(found.size.fits_in(inches(inside)));
        if found.fit == Fit::Fits {
            // Pressed to three quarters, and no more.
            let volume: u128 = pieces.iter().map(|piece| piece.size.volume() * if piece.soft { 3 } else { 4 }).sum();
            prop_assert!(volume <= found.size.volume() * 4);
        }
    }
}
