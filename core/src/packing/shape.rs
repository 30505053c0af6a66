//! The shapes that a thing can take: turned, or folded and pressed.

use super::Piece;

/// Sides are counted in these parts of 10^-5 mm, so that three folds and the pressing stay whole numbers.
pub(super) const PARTS: u64 = 32;

/// The most folds of a soft thing.
const FOLDS: u32 = 3;

/// A thing lying flat: its two flat sides, the longer first, and its thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Shape {
    pub(super) flat: [u64; 2],
    pub(super) thick: u64,
}

impl Shape {
    fn new(one: u64, other: u64, thick: u64) -> Self {
        Self {
            flat: [one.max(other), one.min(other)],
            thick,
        }
    }

    /// The three sides, the longest first.
    pub(super) fn sorted(self) -> [u64; 3] {
        let mut sides = [self.flat[0], self.flat[1], self.thick];
        sides.sort_unstable();
        sides.reverse();
        sides
    }
}

/// Every shape that a piece can take, padding included. A rigid one lies on any of its faces. A soft one is folded up to so many
/// times, each fold halving a flat side and doubling the thickness, and is pressed to three quarters of it (common practice, no
/// source).
pub(super) fn shapes(piece: &Piece, most_folds: u32) -> Vec<Shape> {
    let padding = 2 * piece.fragility.padding() * PARTS;
    let [long, middle, short] = piece.size.sorted().map(|side| side * PARTS);
    let mut shapes = Vec::new();
    if piece.soft {
        for along in 0..=most_folds {
            for across in 0..=most_folds - along {
                let thick = (short / 4 * 3) << (along + across);
                let (one, other) = (long >> along, middle >> across);
                shapes.push(Shape::new(one + padding, other + padding, thick + padding));
            }
        }
    } else {
        let [long, middle, short] = [long + padding, middle + padding, short + padding];
        shapes.push(Shape::new(long, middle, short));
        shapes.push(Shape::new(long, short, middle));
        shapes.push(Shape::new(middle, short, long));
    }
    shapes
}

/// Every shape at all.
pub(super) fn all_shapes(piece: &Piece) -> Vec<Shape> {
    shapes(piece, FOLDS)
}

/// How thick a stack of things becomes that all lie flat within two sides; in a mailer (`bulges`) the thickness takes away from
/// both. `None` when they don't. Exact for stacks: a thicker stack only ever leaves less room, so the least that suits itself is
/// found from below.
pub(super) fn stacked(pieces: &[Piece], flat: [u64; 2], bulges: bool) -> Option<u64> {
    let mut thick = 0;
    loop {
        let taken = if bulges { thick } else { 0 };
        let room = [flat[0].checked_sub(taken)?, flat[1].checked_sub(taken)?];
        let mut sum = 0;
        for piece in pieces {
            let mut least = None;
            for shape in all_shapes(piece) {
                let lies = shape.flat[0] <= room[0] && shape.flat[1] <= room[1];
                if lies && least.is_none_or(|least| shape.thick < least) {
                    least = Some(shape.thick);
                }
            }
            sum += least?;
        }
        if sum == thick || !bulges {
            return Some(sum);
        }
        thick = sum;
    }
}
