//! Boxes into a box: an exact search for few pieces, with a budget.
//!
//! A quick search goes first. When that finds nothing, an exact one settles it.

use super::corners::Corners;
use super::fit::space;
use super::grid::Grid;

/// Three sides along the axes of the box.
pub(super) type Sides = [u64; 3];

/// What a search found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Found {
    /// A packing.
    Yes,
    /// That there is none.
    No,
    /// Neither, within the budget.
    CutOff,
}

/// The most pieces; more are not a parcel to be searched for.
const MOST_PIECES: usize = 40;

/// Do the pieces, each in one of its turns, go into the box? Half the budget is for the quick search.
pub(super) fn search(room: Sides, pieces: &[Vec<Sides>], nodes: u32) -> Found {
    if pieces.len() > MOST_PIECES {
        return Found::CutOff;
    }
    let least = |turns: &Vec<Sides>| turns.iter().map(|turn| space(*turn)).min().unwrap_or(0);
    let mut pieces: Vec<&Vec<Sides>> = pieces.iter().collect();
    pieces
        .sort_unstable_by(|one, other| least(other).cmp(&least(one)).then_with(|| one.cmp(other)));
    let Some(slack) = space(room).checked_sub(pieces.iter().map(|turns| least(turns)).sum()) else {
        return Found::No;
    };
    if Corners::new(room, &pieces, nodes / 2).place() {
        return Found::Yes;
    }
    let Some(mut exact) = Grid::new(room, &pieces, nodes - nodes / 2) else {
        return Found::CutOff;
    };
    exact.node(0, slack)
}

#[cfg(test)]
#[path = "tests/search.rs"]
mod tests;
