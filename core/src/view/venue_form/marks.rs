//! Which charges are meant: marks by their place in the form.

use crate::terms::Positions;

/// Charges by their place in the form: one bit each, the first the lowest.
pub type Marks = u16;

/// Is the charge at this place among them?
#[must_use]
pub const fn is_marked(marks: Marks, at: usize) -> bool {
    at < Positions::SPAN && marks >> at & 1 == 1
}

pub(super) fn positions(marks: Marks) -> Positions {
    let mut places = Vec::new();
    for at in 0..Positions::SPAN {
        if is_marked(marks, at) {
            places.push(at + 1);
        }
    }
    Positions::of(&places).unwrap_or_default()
}

pub(super) fn marks(positions: Positions) -> Marks {
    let mut marks = 0;
    for at in 0..Positions::SPAN {
        marks |= Marks::from(positions.has(at)) << at;
    }
    marks
}

/// Marks once the charge at a place is gone.
pub(super) const fn without(marks: Marks, at: usize) -> Marks {
    if at >= Positions::SPAN {
        return marks;
    }
    let under = (1 << at) - 1;
    marks & under | (marks >> 1) & !under
}

/// Marks once the charge at a place has changed places with the one before.
pub(super) const fn swapped(marks: Marks, at: usize) -> Marks {
    let (first, second) = (is_marked(marks, at - 1), is_marked(marks, at));
    marked(marked(marks, at - 1, second), at, first)
}

/// Marks with the charge at a place among them, or not. Beyond [`Positions::SPAN`] none can be.
#[must_use]
pub const fn marked(marks: Marks, at: usize, on: bool) -> Marks {
    if at >= Positions::SPAN {
        return marks;
    }
    let bit = 1 << at;
    if on { marks | bit } else { marks & !bit }
}
