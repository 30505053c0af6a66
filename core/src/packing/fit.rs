//! Does it go in?

use crate::measure::{Length, ParcelSize};

use super::container::{Container, Form, Fragility, Piece};
use super::search::{Found, Sides, search};
use super::shape::{PARTS, all_shapes, shapes, stacked};

/// The answer. Ordered: better is greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// It doesn't.
    No,
    /// The search was cut off, or soft things would have to give in ways that aren't tried: try it by hand.
    MayFit,
    /// It does.
    Fits,
}

/// The answer, and how large the parcel is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fitted {
    /// The answer.
    pub fit: Fit,
    /// The parcel: a carton as it is, a mailer as thick as what is in it.
    pub size: ParcelSize,
}

/// A budget for [`fit`] that is over in a blink, and settles what goes into one parcel of a solo trader.
pub const NODES: u32 = 20_000;

/// Do all the pieces go into a container together? `nodes` is how many placements the search may try.
pub fn fit(pieces: &[Piece], container: &Container, nodes: u32) -> Fitted {
    match container.form {
        Form::Mailer => in_mailer(pieces, container),
        Form::Carton => Fitted {
            fit: in_carton(pieces, container.inside, nodes),
            size: container.inside,
        },
    }
}

/// In a mailer all lies flat in a stack, and nothing may break.
fn in_mailer(pieces: &[Piece], container: &Container) -> Fitted {
    let no = Fitted {
        fit: Fit::No,
        size: container.inside,
    };
    let [long, wide, most] = container.inside.sorted().map(|side| side * PARTS);
    let breaks = |piece: &Piece| piece.fragility != Fragility::Sturdy;
    if pieces.iter().any(breaks) {
        return no;
    }
    let Some(thick) = stacked(pieces, [long, wide], true).filter(|thick| *thick <= most) else {
        return no;
    };
    let size = flattened(container.inside, thick.div_ceil(PARTS).max(1));
    Fitted {
        fit: Fit::Fits,
        size: size.unwrap_or(container.inside),
    }
}

/// A mailer with another thickness, in 10^-5 mm.
fn flattened(inside: ParcelSize, thick: u64) -> Option<ParcelSize> {
    let mut sides = inside.sides();
    sides.sort_unstable_by_key(|side| std::cmp::Reverse(side.ticks()));
    let [long, wide, most] = sides;
    let thick = Length::from_ticks(thick, most.unit()).ok()?;
    ParcelSize::new(long, wide, thick).ok()
}

fn in_carton(pieces: &[Piece], inside: ParcelSize, nodes: u32) -> Fit {
    let inside = inside.sorted().map(|side| side * PARTS);
    let goes_in = |shape: Sides| shape.iter().zip(inside).all(|(side, room)| *side <= room);
    let mut volume = 0;
    for piece in pieces {
        let shapes = all_shapes(piece);
        if !shapes.iter().any(|shape| goes_in(shape.sorted())) {
            return Fit::No;
        }
        let sizes = shapes.iter().map(|shape| space(shape.sorted()));
        volume += sizes.min().unwrap_or(0);
    }
    if volume > space(inside) {
        return Fit::No;
    }
    let [rigid, soft]: [Vec<Piece>; 2] = [false, true].map(|soft| {
        pieces
            .iter()
            .copied()
            .filter(|one| one.soft == soft)
            .collect()
    });
    if pieces.len() <= 1 {
        return Fit::Fits;
    }
    if rigid.is_empty() {
        return in_stack(&soft, inside);
    }
    let found = search(inside, &turns(&rigid), nodes);
    if found == Found::No {
        return Fit::No;
    }
    if soft.is_empty() {
        return match found {
            Found::Yes => Fit::Fits,
            _ => Fit::MayFit,
        };
    }
    // The volume is enough, and the rigid ones go in: soft ones give, so "no" is never sure.
    match search(inside, &turns(pieces), nodes) {
        Found::Yes => Fit::Fits,
        _ => Fit::MayFit,
    }
}

/// Soft things only, whose volume is enough: in one stack along any of the sides, or else by stuffing.
fn in_stack(soft: &[Piece], inside: Sides) -> Fit {
    let [long, middle, short] = inside;
    let stands = |flat, height| stacked(soft, flat, false).is_some_and(|thick| thick <= height);
    let in_one = stands([long, middle], short)
        || stands([long, short], middle)
        || stands([middle, short], long);
    if in_one { Fit::Fits } else { Fit::MayFit }
}

/// Every way that each piece may stand: six turns of a rigid one; of a soft one the six of each shape with at most one fold.
fn turns(pieces: &[Piece]) -> Vec<Vec<Sides>> {
    let mut all = Vec::with_capacity(pieces.len());
    for piece in pieces {
        let mut turns: Vec<Sides> = Vec::new();
        for shape in shapes(piece, 1) {
            let [a, b, c] = shape.sorted();
            let six = [
                [a, b, c],
                [a, c, b],
                [b, a, c],
                [b, c, a],
                [c, a, b],
                [c, b, a],
            ];
            for turn in six {
                if !turns.contains(&turn) {
                    turns.push(turn);
                }
            }
        }
        all.push(turns);
    }
    all
}

/// The volume of three sides.
pub(super) fn space(sides: Sides) -> u128 {
    sides.map(u128::from).iter().product()
}

#[cfg(test)]
#[path = "tests/fit.rs"]
mod tests;
