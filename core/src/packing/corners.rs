//! The quick search: each piece in turn at the corners that those before it leave. It finds most packings, and proves nothing.

use super::search::Sides;

/// The pieces placed so far, and those to place.
pub(super) struct Corners<'a> {
    room: Sides,
    pieces: &'a [&'a Vec<Sides>],
    /// Where each stands: from, to.
    placed: Vec<(Sides, Sides)>,
    nodes: u32,
}

impl<'a> Corners<'a> {
    pub(super) fn new(room: Sides, pieces: &'a [&'a Vec<Sides>], nodes: u32) -> Self {
        Self {
            room,
            pieces,
            placed: Vec::new(),
            nodes,
        }
    }

    /// Places the next piece and all after it.
    pub(super) fn place(&mut self) -> bool {
        let Some(turns) = self.pieces.get(self.placed.len()) else {
            return true;
        };
        let at = |axis: usize| {
            let mut at = vec![0];
            for (_, to) in &self.placed {
                if !at.contains(&to[axis]) {
                    at.push(to[axis]);
                }
            }
            at.sort_unstable();
            at
        };
        let (xs, ys, zs) = (at(0), at(1), at(2));
        for turn in *turns {
            for z in &zs {
                for y in &ys {
                    for x in &xs {
                        if self.nodes == 0 {
                            return false;
                        }
                        self.nodes -= 1;
                        let from = [*x, *y, *z];
                        let to = [0, 1, 2].map(|axis| from[axis] + turn[axis]);
                        if !self.is_free(from, to) {
                            continue;
                        }
                        self.placed.push((from, to));
                        if self.place() {
                            return true;
                        }
                        self.placed.pop();
                    }
                }
            }
        }
        false
    }

    fn is_free(&self, from: Sides, to: Sides) -> bool {
        let axes = [0, 1, 2];
        axes.iter().all(|axis| to[*axis] <= self.room[*axis])
            && self.placed.iter().all(|(start, end)| {
                axes.iter()
                    .any(|axis| to[*axis] <= start[*axis] || end[*axis] <= from[*axis])
            })
    }
}
