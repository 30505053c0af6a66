//! The least price whose payout reaches a target.

use super::pieces::{end, first, pieces};
use super::work::{FINE, Which, Works};
use super::{Refusal, Sale, Schedule};
use crate::money::Money;

/// The most prices that one search may try. Only terms that leave less than about a tenth of a percent of the price can
/// need more.
const MOST_TRIED: u32 = 100_000;

/// The least price, from nothing up, at which a sale pays out at least `target`. The sale's own price is ignored; all else
/// of it (postage, tax, kind, …) is as it is at every price.
///
/// Piece by piece between the prices at which a rule changes, the unrounded payout is a straight line, and the rounded one
/// is no further from it than half a unit a charge: so no price can do at which the line is under the target by more than
/// that, and from there the search goes up. On a piece charges only grow with the price, so one more unit of price never
/// adds more than one unit of payout: the search steps by what is missing and can't step over the answer.
///
/// # Errors
/// [`Refusal::TakesAll`] when no price pays so much because a dearer one pays nothing more, or so little more that the
/// search was given up; [`Refusal::TooDear`] when the price would be over [`Money::MAX`].
pub fn invert(schedule: &Schedule, sale: &Sale, target: Money) -> Result<Money, Refusal> {
    let mut works = Works::new(schedule, sale, Which::Sale);
    let starts = pieces(&mut works);
    let slack = works.slack();
    let found = least_from(
        &mut |price| works.payout(price),
        slack,
        &starts,
        0,
        i128::from(target.minor()),
    );
    match found {
        Some(Ok(price)) => Money::from_minor(price).map_err(|_| Refusal::TooDear),
        Some(Err(())) => Err(Refusal::TakesAll),
        None => {
            let last = starts.last().copied().unwrap_or(0);
            let gains = end(&starts, starts.len() - 1) > last
                && works.payout(last + 1).1 > works.payout(last).1;
            Err(if gains {
                Refusal::TooDear
            } else {
                Refusal::TakesAll
            })
        }
    }
}

/// The least price in this piece or a later one that pays at least `target`, of a payout in rounded and in fine units that are no
/// further apart than `slack`; `None` where there is none, and an error where
/// the search was given up.
pub(super) fn least_from(
    payout: &mut dyn FnMut(i64) -> (i128, i128),
    slack: i128,
    starts: &[i64],
    from_piece: usize,
    target: i128,
) -> Option<Result<i64, ()>> {
    let near = target * FINE - slack;
    let mut tried = 0;
    for piece in from_piece..starts.len() {
        let (start, end) = (starts[piece], end(starts, piece));
        let mut price = if payout(start).1 >= near {
            start
        } else if payout(end).1 >= near {
            first(start, end, &mut |price| payout(price).1 >= near)
        } else {
            continue;
        };
        while price <= end {
            let (paid, fine) = payout(price);
            if paid >= target {
                return Some(Ok(price));
            }
            if fine < near {
                // The line falls here, and only gets further away.
                break;
            }
            if tried == MOST_TRIED {
                return Some(Err(()));
            }
            tried += 1;
            price = i64::try_from(i128::from(price) + target - paid).unwrap_or(i64::MAX);
        }
    }
    None
}
