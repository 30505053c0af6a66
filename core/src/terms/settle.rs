//! Turning a sale into its lines.

use super::work::{Cell, Which, Works};
use super::{Amount, How, Line, Part, Sale, Schedule, Step};
use crate::money::{Money, Rate, capped, nearest};

/// A sale in its lines. `price + post_in − cut = payout`, and the lines sum to the cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settlement {
    /// The thing's own price.
    pub price: Money,
    /// The postage that the buyer pays.
    pub post_in: Money,
    /// One line for each charge that holds, in the schedule's order; then one for each group that makes a difference.
    pub lines: Vec<Line>,
    /// The venue's cut: the sum of the lines.
    pub cut: Money,
    /// What the venue pays out, before postage out. Below nothing when the charges are over all that the buyer pays.
    pub payout: Money,
}

/// Charges without a sale, in their lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Charges {
    /// The lines, as in a [`Settlement`].
    pub lines: Vec<Line>,
    /// Their sum.
    pub total: Money,
}

/// Settles a sale: of one thing, alone in its order and its parcel, from one listing. Each charge is rounded half away
/// from zero, once. Charges by the month are overheads and no part of it: see [`monthly`].
pub fn settle(schedule: &Schedule, sale: &Sale) -> Settlement {
    let mut works = Works::new(schedule, sale, Which::Sale);
    works.at(sale.price.minor());
    let (cut, _) = works.cut();
    let paid = i128::from(sale.price.minor()) + i128::from(sale.post_in.minor());
    Settlement {
        price: sale.price,
        post_in: sale.post_in,
        lines: lines(&works),
        cut: capped(cut),
        payout: capped(paid - cut),
    }
}

/// The payout alone, without its lines.
pub fn payout(schedule: &Schedule, sale: &Sale) -> Money {
    let mut works = Works::new(schedule, sale, Which::Sale);
    capped(works.payout(sale.price.minor()).0)
}

/// What is owed though nothing sells, when the thing was offered as this sale says. Not the charges by the month.
pub fn unsold(schedule: &Schedule, offered: &Sale) -> Charges {
    charges(schedule, offered, Which::Unsold)
}

/// What is owed each month, sale or not.
pub fn monthly(schedule: &Schedule) -> Charges {
    charges(schedule, &Sale::default(), Which::Month)
}

fn charges(schedule: &Schedule, sale: &Sale, which: Which) -> Charges {
    let mut works = Works::new(schedule, sale, which);
    works.at(sale.price.minor());
    Charges {
        lines: lines(&works),
        total: capped(works.cut().0),
    }
}

/// The lines of a schedule as worked out last.
pub(super) fn lines(works: &Works<'_>) -> Vec<Line> {
    let mut lines = Vec::with_capacity(works.cells.len());
    for (charge, cell) in works.schedule.charges.iter().zip(&works.cells) {
        if cell.holds {
            lines.push(Line {
                label: charge.label.clone(),
                amount: capped(cell.amount),
                how: how(&charge.amount, cell),
                bound: cell.bound,
            });
        }
    }
    for group in &works.schedule.groups {
        let difference = works.difference(group);
        if difference.amount != 0 {
            lines.push(Line {
                label: group.label.clone(),
                amount: capped(difference.amount),
                how: How::Group {
                    sum: capped(difference.sum),
                },
                bound: difference.bound,
            });
        }
    }
    lines
}

fn how(amount: &Amount, cell: &Cell) -> How {
    let of = capped(nearest(cell.base, cell.parts.max(1)));
    let part = |step: &Step| Part {
        rate: step.percent,
        of,
        flat: step.flat,
    };
    let step = || {
        let at = cell.step.checked_sub(1);
        at.map(|at| amount.steps()[at]).unwrap_or_default()
    };
    match amount {
        Amount::Flat(_) => How::Flat,
        Amount::Percent(rate) => How::Percent { rate: *rate, of },
        Amount::Brackets(_) => How::Bracket {
            from: step().from,
            part: part(&step()),
        },
        Amount::Tiers { by, .. } => How::Tier {
            by: *by,
            from: step().from,
            part: part(&step()),
        },
        Amount::Slices(steps) => How::Slices(slices(&steps[..cell.step], of)),
    }
}

/// The parts of a base that lie in the slices it reaches.
fn slices(steps: &[Step], of: Money) -> Vec<Part> {
    let mut parts = Vec::with_capacity(steps.len());
    for (at, step) in steps.iter().enumerate() {
        let end = steps.get(at + 1).map_or(of, |next| next.from);
        if step.percent != Rate::ZERO || !step.flat.is_zero() {
            parts.push(Part {
                rate: step.percent,
                of: end.minus(step.from),
                flat: step.flat,
            });
        }
    }
    parts
}
