//! The two searches, each on its own.

use super::*;
use crate::packing::fit::space;

/// A piece in all its turns.
fn turns([a, b, c]: Sides) -> Vec<Sides> {
    vec![
        [a, b, c],
        [a, c, b],
        [b, a, c],
        [b, c, a],
        [c, a, b],
        [c, b, a],
    ]
}

/// What the exact search alone says.
fn exact(room: Sides, pieces: &[Sides]) -> Found {
    let mut sorted = pieces.to_vec();
    sorted.sort_unstable();
    let all: Vec<Vec<Sides>> = sorted.into_iter().map(turns).collect();
    let all: Vec<&Vec<Sides>> = all.iter().collect();
    let taken: u128 = pieces.iter().map(|piece| space(*piece)).sum();
    let Some(slack) = space(room).checked_sub(taken) else {
        return Found::No;
    };
    let grid = Grid::new(room, &all, 1_000_000);
    grid.map_or(Found::CutOff, |mut grid| grid.node(0, slack))
}

/// Every box of sides 1 to 3 in every pair and every triple, in several rooms: one sure answer from the exact search, and never
/// against what the quick one found.
#[test]
fn the_searches_agree_on_small_boxes() {
    let mut sizes = Vec::new();
    for a in 1..=3 {
        for b in a..=3 {
            for c in b..=3 {
                sizes.push([a, b, c]);
            }
        }
    }
    let (mut fits, mut none) = (0, 0);
    for room in [[3, 3, 3], [4, 3, 2], [5, 3, 1], [4, 4, 3]] {
        for (at, one) in sizes.iter().enumerate() {
            for (next, two) in sizes.iter().enumerate().skip(at) {
                for three in sizes.iter().skip(next) {
                    let pieces = [*one, *two, *three];
                    let all = pieces.map(turns);
                    let all: Vec<&Vec<Sides>> = all.iter().collect();
                    let quick = Corners::new(room, &all, 1_000_000).place();
                    let found = exact(room, &pieces);
                    assert!(!quick || found == Found::Yes, "{pieces:?} in {room:?}");
                    assert_ne!(found, Found::CutOff);
                    if quick { fits += 1 } else { none += 1 }
                }
            }
        }
    }
    assert!(fits > 100 && none > 100, "{fits} {none}");
}

#[test]
fn the_exact_search_finds_puzzles_by_itself() {
    let mut puzzle = vec![[1, 2, 2]; 6];
    puzzle.extend([[1, 1, 1]; 3]);
    assert_eq!(exact([3, 3, 3], &puzzle), Found::Yes);
    puzzle.pop();
    assert_eq!(exact([3, 3, 3], &puzzle), Found::Yes);
    let mut ring = vec![[3, 2, 1]; 4];
    assert_eq!(exact([5, 5, 1], &ring), Found::Yes);
    ring.push([1, 1, 1]);
    assert_eq!(exact([5, 5, 1], &ring), Found::Yes);
    assert_eq!(exact([6, 6, 1], &[[4, 1, 1]; 9]), Found::No);
}

/// All sides different: too many cells for the exact search, and the quick one finds a way.
#[test]
fn odd_boxes_are_placed_quickly() {
    let sizes = [
        [101, 97, 89],
        [83, 79, 73],
        [71, 67, 61],
        [59, 53, 47],
        [43, 41, 37],
        [31, 29, 23],
    ];
    let all: Vec<Vec<Sides>> = sizes.into_iter().map(turns).collect();
    assert_eq!(search([190, 180, 120], &all, 20_000), Found::Yes);
    assert_eq!(exact([190, 180, 120], &sizes), Found::CutOff);
}
