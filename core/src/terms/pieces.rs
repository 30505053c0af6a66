//! The prices at which a rule of the terms changes. From one to the next the unrounded payout is a straight line.

use super::Bound;
use super::work::Works;
use crate::money::Money;

/// The last price there is, in minor units.
pub(super) const TOP: i64 = Money::MAX.minor();

/// The first price of each piece, in order, from 0.
///
/// The edges of price conditions are where they say. The others are searched: within a piece on which all that came before
/// keeps to one rule, a charge's base only grows with the price, so that its step, and then its limit, only go up. A step
/// can't be jumped over and come back, and bisection finds each. Limits make no step, only a bend; they are found because the
/// payout has to gain on either side of it.
pub(super) fn pieces(works: &mut Works<'_>) -> Vec<i64> {
    let schedule = works.schedule;
    let mut starts = vec![0];
    for charge in &schedule.charges {
        for edge in [charge.when.from, charge.when.below].into_iter().flatten() {
            let edge = edge.minor();
            if (1..=TOP).contains(&edge) {
                starts.push(edge);
            }
        }
    }
    starts.sort_unstable();
    starts.dedup();
    for (index, charge) in schedule.charges.iter().enumerate() {
        if !charge.amount.steps().is_empty() {
            cut(&mut starts, &mut |price| {
                works.at(price);
                works.cells[index].step
            });
        }
        if charge.least.is_some() || charge.most.is_some() {
            cut(&mut starts, &mut |price| {
                works.at(price);
                rank(works.cells[index].bound)
            });
        }
        for group in &schedule.groups {
            // Groups end with their last charge.
            if group.charges.has(index) && group.charges.are_within(index + 1) {
                cut(&mut starts, &mut |price| {
                    works.at(price);
                    rank(works.difference(group).bound)
                });
            }
        }
    }
    starts
}

const fn rank(bound: Option<Bound>) -> usize {
    match bound {
        Some(Bound::Least) => 0,
        None => 1,
        Some(Bound::Most) => 2,
    }
}

/// The last price of a piece.
pub(super) fn end(starts: &[i64], piece: usize) -> i64 {
    starts.get(piece + 1).map_or(TOP, |next| next - 1)
}

/// Cuts every piece where a rank, which within it never falls, goes up.
fn cut(starts: &mut Vec<i64>, rank: &mut dyn FnMut(i64) -> usize) {
    let mut piece = 0;
    while piece < starts.len() {
        let (start, end) = (starts[piece], end(starts, piece));
        let low = rank(start);
        if rank(end) != low {
            let next = first(start, end, &mut |price| rank(price) != low);
            starts.insert(piece + 1, next);
        }
        piece += 1;
    }
}

/// The first price over `start` at which something is so, when it is so at `end` and stays so once it is.
pub(super) fn first(start: i64, end: i64, is_so: &mut dyn FnMut(i64) -> bool) -> i64 {
    let (mut not, mut so) = (start, end);
    while so - not > 1 {
        let middle = not + (so - not) / 2;
        if is_so(middle) {
            so = middle;
        } else {
            not = middle;
        }
    }
    so
}

/// Does the unrounded payout gain enough by the price on every piece? See [`LEAST_GAIN`].
pub(super) fn gains_everywhere(works: &mut Works<'_>) -> bool {
    let starts = pieces(works);
    (0..starts.len()).all(|piece| {
        let start = starts[piece];
        if end(&starts, piece) == start {
            return true;
        }
        let gain = works.payout(start + 1).1 - works.payout(start).1;
        gain >= LEAST_GAIN
    })
}

/// The least that a further minor unit of price has to pay out, in fine units: a ten-thousandth of a percent of it, which is
/// as fine as rates are. A little under, for what the fine amounts lack.
const LEAST_GAIN: i128 = 900;
