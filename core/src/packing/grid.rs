//! The exact search, cell by cell.
//!
//! In a packing pushed to one corner each piece starts at a sum of other pieces' sides (Christofides and Whitlock 1977), so only the
//! cells between such sums matter. Each cell in turn is either the first corner of a piece or stays empty, and no more may stay
//! empty than the pieces leave.

use super::fit::space;
use super::search::{Found, Sides};

/// The most cells that are looked at.
const MOST_CELLS: usize = 4_096;
/// The most borders along one axis.
const MOST_BORDERS: usize = 256;

/// The cells and what is left to place.
pub(super) struct Grid<'a> {
    /// The cells' borders along each axis: sums of sides, and the wall.
    borders: [Vec<u64>; 3],
    /// Whether each cell is taken, x fastest.
    taken: Vec<bool>,
    pieces: &'a [&'a Vec<Sides>],
    used: Vec<bool>,
    nodes: u32,
}

impl<'a> Grid<'a> {
    /// `None` when there are too many cells.
    pub(super) fn new(room: Sides, pieces: &'a [&'a Vec<Sides>], nodes: u32) -> Option<Self> {
        let mut borders = [Vec::new(), Vec::new(), Vec::new()];
        let mut cells = 1_usize;
        for (axis, border) in borders.iter_mut().enumerate() {
            *border = sums(room[axis], axis, pieces)?;
            cells = cells.checked_mul(border.len() - 1)?;
        }
        (cells <= MOST_CELLS).then(|| Self {
            borders,
            taken: vec![false; cells],
            pieces,
            used: vec![false; pieces.len()],
            nodes,
        })
    }

    /// Fills the cells from one on, when so much volume may stay empty.
    pub(super) fn node(&mut self, first: usize, mut slack: u128) -> Found {
        if self.used.iter().all(|used| *used) {
            return Found::Yes;
        }
        for cell in first..self.taken.len() {
            if self.taken[cell] {
                continue;
            }
            match self.corner(cell, slack) {
                Found::No => {}
                found => return found,
            }
            match slack.checked_sub(self.volume(cell)) {
                Some(left) => slack = left,
                None => return Found::No,
            }
        }
        Found::No
    }

    /// Tries every piece with its first corner in a cell.
    fn corner(&mut self, cell: usize, slack: u128) -> Found {
        let pieces = self.pieces;
        for (at, turns) in pieces.iter().enumerate() {
            // Of equal pieces only the first that is left: the others would only repeat it. They lie side by side.
            let repeats = at > 0 && !self.used[at - 1] && pieces[at - 1] == *turns;
            if self.used[at] || repeats {
                continue;
            }
            for turn in *turns {
                if self.nodes == 0 {
                    return Found::CutOff;
                }
                self.nodes -= 1;
                let Some(cells) = self.cells(cell, *turn) else {
                    continue;
                };
                self.set(&cells, true);
                self.used[at] = true;
                let found = self.node(cell + 1, slack);
                self.used[at] = false;
                self.set(&cells, false);
                if found != Found::No {
                    return found;
                }
            }
        }
        Found::No
    }

    /// The cell's place along each axis.
    fn place(&self, cell: usize) -> [usize; 3] {
        let [wide, deep] = [0, 1].map(|axis| self.borders[axis].len() - 1);
        [cell % wide, cell / wide % deep, cell / wide / deep]
    }

    fn volume(&self, cell: usize) -> u128 {
        let place = self.place(cell);
        let side =
            |axis: usize| self.borders[axis][place[axis] + 1] - self.borders[axis][place[axis]];
        space([0, 1, 2].map(side))
    }

    /// The cells of a piece with its first corner in a cell, when they are free and end at a border.
    fn cells(&self, cell: usize, turn: Sides) -> Option<Vec<usize>> {
        let from = self.place(cell);
        let mut to = [0; 3];
        for axis in [0, 1, 2] {
            let end = self.borders[axis][from[axis]] + turn[axis];
            to[axis] = self.borders[axis].binary_search(&end).ok()?;
        }
        let [wide, deep] = [0, 1].map(|axis| self.borders[axis].len() - 1);
        let mut cells = Vec::new();
        for z in from[2]..to[2] {
            for y in from[1]..to[1] {
                for x in from[0]..to[0] {
                    let cell = (z * deep + y) * wide + x;
                    if self.taken[cell] {
                        return None;
                    }
                    cells.push(cell);
                }
            }
        }
        Some(cells)
    }

    fn set(&mut self, cells: &[usize], taken: bool) {
        for cell in cells {
            self.taken[*cell] = taken;
        }
    }
}

/// Every sum of the pieces' sides along an axis, each piece once at most, within the room; and the wall. `None` for too many.
fn sums(room: u64, axis: usize, pieces: &[&Vec<Sides>]) -> Option<Vec<u64>> {
    let mut sums = vec![0];
    for turns in pieces {
        for known in 0..sums.len() {
            for turn in *turns {
                let sum = sums[known] + turn[axis];
                if sum <= room {
                    sums.push(sum);
                }
            }
        }
        sums.sort_unstable();
        sums.dedup();
        if sums.len() > MOST_BORDERS {
            return None;
        }
    }
    if sums.last() != Some(&room) {
        sums.push(room);
    }
    Some(sums)
}
