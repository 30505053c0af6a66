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
    dead_zones_from(schedule, sale, None, up_to)
}

/// The same where the buyer pays no postage from a price on: `free_from`. Price and postage are walked together.
pub fn dead_zones_from(
    schedule: &Schedule,
    sale: &Sale,
    free_from: Option<Money>,
    up_to: Money,
) -> Vec<DeadZone> {
    let free = Sale {
        post_in: Money::ZERO,
        ..sale.clone()
    };
    let mut works = Works::new(schedule, sale, Which::Sale);
    let mut freed = Works::new(schedule, &free, Which::Sale);
    let mut starts = pieces(&mut works);
    let edge = free_from
        .map(Money::minor)
        .filter(|_| !sale.post_in.is_zero());
    if let Some(edge) = edge {
        starts.retain(|start| *start < edge);
        starts.extend(pieces(&mut freed).into_iter().filter(|start| *start > edge));
        starts.push(edge);
        starts.sort_unstable();
    }
    let slack = works.slack().max(freed.slack());
    let mut payout = |price: i64| match edge {
        Some(edge) if price >= edge => freed.payout(price),
        _ => works.payout(price),
    };
    zones(&mut payout, slack, &starts, up_to.minor())
}

/// The zones of a payout that is a straight line from one start to the next.
fn zones(
    payout: &mut dyn FnMut(i64) -> (i128, i128),
    slack: i128,
    starts: &[i64],
    last: i64,
) -> Vec<DeadZone> {
    let mut zones: Vec<DeadZone> = Vec::new();
    let mut done = 0;
    for (piece, start) in starts.iter().copied().enumerate().skip(1) {
        if start > last {
            break;
        }
        if start <= done {
            continue;
        }
        let (under, fine_under) = payout(start - 1);
        let (over, fine_over) = payout(start);
        if fine_over >= fine_under || over >= under {
            continue;
        }
        // A search given up means that hardly any dearer price pays more: skip them all.
        let again = match least_from(payout, slack, starts, piece, under) {
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
