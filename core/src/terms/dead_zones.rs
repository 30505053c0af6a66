//! Prices to skip: selling prices where asking less pays more, because of a step in the terms.

use super::invert::least_from;
use super::pieces::pieces;
use super::work::{Which, Works};
use super::{Sale, Schedule};
use crate::money::Money;

/// A run of prices, each of which pays less than a lower one just under them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DeadZone {
    /// The first price to skip.
    pub from: Money,
    /// The last one.
    pub to: Money,
    /// The price just under them, which pays more than any of them.
    pub better: Money,
}

/// The prices to skip up to a price, in order. The sale's own price is ignored, as in [`super::invert`].
///
/// Only a step in the terms makes them: a bracket, a slice's flat sum, a condition, at which the unrounded payout falls. The
/// cent that rounding takes here and there is no reason to skip a price.
pub fn dead_zones(schedule: &Schedule, sale: &Sale, up_to: Money) -> Vec<DeadZone> {
    let mut works = Works::new(schedule, sale, Which::Sale);
    let starts = pieces(&mut works);
    let last = up_to.minor();
    let mut zones: Vec<DeadZone> = Vec::new();
    let mut done = 0;
    for (piece, start) in starts.iter().copied().enumerate().skip(1) {
        if start > last {
            break;
        }
        if start <= done {
            continue;
        }
        let (under, fine_under) = works.payout(start - 1);
        let (over, fine_over) = works.payout(start);
        if fine_over >= fine_under || over >= under {
            continue;
        }
        // A search given up means that hardly any dearer price pays more: skip them all.
        let again = match least_from(&mut works, &starts, piece, under) {
            Some(Ok(price)) => price - 1,
            Some(Err(())) | None => last,
        };
        done = again.min(last);
        zones.push(DeadZone {
            from: Money::new(start),
            to: Money::new(done),
            better: Money::new(start - 1),
        });
    }
    zones
}
