//! Packing: known puzzles, and known impossibilities.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::measure::{ParcelSize, Weight, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::packing::{Container, Fit, Form, Fragility, NODES, Piece, fit};

fn piece(size: ParcelSize, soft: bool) -> Piece {
    Piece {
        size,
        weight: Weight::whole(1, WeightUnit::Ounce),
        soft,
        fragility: Fragility::Sturdy,
    }
}

fn container(inside: ParcelSize, form: Form) -> Container {
    Container {
        name: "Box".to_owned(),
        tare: Weight::whole(1, WeightUnit::Ounce),
        cost: Money::ZERO,
        inside,
        form,
    }
}

/// So many of each size into a carton, in inches.
fn boxes(pieces: &[(usize, [u16; 3])], [a, b, c]: [u16; 3]) -> Fit {
    let mut all = Vec::new();
    for (count, [a, b, c]) in pieces {
        all.extend(vec![piece(ParcelSize::inches(*a, *b, *c), false); *count]);
    }
    fit(
        &all,
        &container(ParcelSize::inches(a, b, c), Form::Carton),
        NODES,
    )
    .fit
}

/// Slothouber and Graatsma (S; R with OR-Tools): six 1 × 2 × 2 and three 1 × 1 × 1 fill 3 × 3 × 3, only with turning.
#[test]
fn the_puzzle_of_slothouber_and_graatsma() {
    assert_eq!(
        boxes(&[(6, [1, 2, 2]), (3, [1, 1, 1])], [3, 3, 3]),
        Fit::Fits
    );
    assert_eq!(boxes(&[(6, [1, 2, 2]), (4, [1, 1, 1])], [3, 3, 3]), Fit::No);
}

/// Recomputed (R): enough volume is not fit.
#[test]
fn volume_is_not_fit() {
    assert_eq!(boxes(&[(2, [16, 16, 10])], [31, 20, 15]), Fit::No);
    assert_eq!(boxes(&[(2, [16, 16, 10])], [32, 20, 15]), Fit::Fits);
    assert_eq!(boxes(&[(3, [12, 12, 12])], [25, 20, 15]), Fit::No);
    assert_eq!(boxes(&[(2, [12, 12, 12])], [25, 20, 15]), Fit::Fits);
}

/// Recomputed (R): four 3 × 2 × 1 around one 1 × 1 × 1 fill 5 × 5 × 1, though no straight cut parts them.
#[test]
fn a_packing_without_a_straight_cut() {
    assert_eq!(
        boxes(&[(4, [3, 2, 1]), (1, [1, 1, 1])], [5, 5, 1]),
        Fit::Fits
    );
    assert_eq!(boxes(&[(4, [3, 2, 1]), (2, [1, 1, 1])], [5, 5, 1]), Fit::No);
}

/// N. G. de Bruijn, Filling boxes with bricks, American Mathematical Monthly 76 (1969) 37–40 (S): five 1 × 2 × 3 fill 1 × 5 × 6,
/// though not all in parallel; bricks of 1 × 2 × 4 fill no box that they don't fill in parallel, so 27 of them not 6 × 6 × 6
/// (S2), and 125 not 10 × 10 × 10. A search may give up on those, and must never say that they fit.
#[test]
fn the_bricks_of_de_bruijn() {
    assert_eq!(boxes(&[(5, [1, 2, 3])], [1, 5, 6]), Fit::Fits);
    assert_ne!(boxes(&[(27, [1, 2, 4])], [6, 6, 6]), Fit::Fits);
    assert_ne!(boxes(&[(125, [1, 2, 4])], [10, 10, 10]), Fit::Fits);
    assert_eq!(boxes(&[(4, [1, 2, 4])], [4, 4, 2]), Fit::Fits);
    assert_eq!(boxes(&[(8, [1, 2, 4])], [4, 4, 4]), Fit::Fits);
}

/// D. A. Klarner (M): bars of 1 × n fill a rectangle only when n divides one of its sides. 6 × 6 is no place for nine bars of 4,
/// 10 × 4 is for ten, and 8 × 3 for six.
#[test]
fn the_bars_of_klarner() {
    assert_eq!(boxes(&[(9, [1, 1, 4])], [6, 6, 1]), Fit::No);
    assert_eq!(boxes(&[(8, [1, 1, 4])], [6, 6, 1]), Fit::Fits);
    assert_eq!(boxes(&[(10, [1, 1, 4])], [10, 4, 1]), Fit::Fits);
    assert_eq!(boxes(&[(6, [1, 1, 4])], [8, 3, 1]), Fit::Fits);
}

/// ISO 3394 (M): modules of 600 × 400 mm and of 400 × 300 mm cover a pallet of 1200 × 800 mm by four and by eight; five and nine
/// don't go on.
#[test]
fn modules_on_a_pallet() {
    let pallet = container("1200 x 800 x 150 mm".parse().unwrap(), Form::Carton);
    let on = |count, size: &str| {
        fit(
            &vec![piece(size.parse().unwrap(), false); count],
            &pallet,
            NODES,
        )
        .fit
    };
    assert_eq!(on(4, "600 x 400 x 150 mm"), Fit::Fits);
    assert_eq!(on(5, "600 x 400 x 150 mm"), Fit::No);
    assert_eq!(on(8, "400 x 300 x 150 mm"), Fit::Fits);
    assert_eq!(on(9, "400 x 300 x 150 mm"), Fit::No);
}

/// ISO 216 sheets and ISO 269 envelopes (S2): A4 goes flat into C4, folded once into C5 and twice into C6; A3 folded once into C4; A4
/// doesn't go flat into C5, which is what folding is for.
#[test]
fn sheets_fold_into_their_envelopes() {
    let sheet = |text: &str, soft| piece(text.parse().unwrap(), soft);
    let envelope = |text: &str| container(text.parse().unwrap(), Form::Mailer);
    let (a4, a3) = ("210 x 297 x 0.1 mm", "297 x 420 x 0.1 mm");
    let (c4, c5, c6) = ("229 x 324 x 5 mm", "162 x 229 x 5 mm", "114 x 162 x 5 mm");
    let table = [
        (a4, c4, Fit::Fits, Fit::Fits),
        (a4, c5, Fit::Fits, Fit::No),
        (a4, c6, Fit::Fits, Fit::No),
        (a3, c4, Fit::Fits, Fit::No),
        (a3, "57 x 81 x 5 mm", Fit::No, Fit::No),
    ];
    for (size, inside, folded, stiff) in table {
        let found =
            [true, false].map(|soft| fit(&[sheet(size, soft)], &envelope(inside), NODES).fit);
        assert_eq!(found, [folded, stiff], "{size} in {inside}");
    }
}
