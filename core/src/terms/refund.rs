//! What comes back of a sale's charges when it is cancelled or returned.

use super::settle::Charges;
use super::work::{Which, Works};
use super::{How, Line, Refund, Sale, Schedule};
use crate::money::{Money, capped, split};

/// What comes back when a sale is cancelled or returned: one line for each charge of which something does.
///
/// What a group's limit made of its charges is first shared among those of them that held, in proportion to what they came
/// to, so that never more comes back than was charged.
pub fn refund(schedule: &Schedule, sale: &Sale) -> Charges {
    let mut works = Works::new(schedule, sale, Which::Sale);
    works.at(sale.price.minor());
    let mut charged: Vec<Money> = Vec::with_capacity(works.cells.len());
    for cell in &works.cells {
        charged.push(capped(cell.amount));
    }
    for group in &schedule.groups {
        let mut members = Vec::new();
        let mut weights = Vec::new();
        for (index, cell) in works.cells.iter().enumerate() {
            if cell.holds && group.charges.has(index) {
                members.push(index);
                weights.push(u64::try_from(cell.amount).unwrap_or(0));
            }
        }
        let difference = capped(works.difference(group).amount);
        for (index, share) in members.into_iter().zip(split(difference, &weights)) {
            charged[index] = charged[index].plus(share);
        }
    }
    let mut back = Charges::default();
    for (charge, charged) in schedule.charges.iter().zip(charged) {
        let amount = match charge.refund {
            Refund::Kept => Money::ZERO,
            Refund::Returned => charged,
            Refund::ReturnedLess(less) => charged.minus(less).max(Money::ZERO),
        };
        if !amount.is_zero() {
            back.total = back.total.plus(amount);
            back.lines.push(Line {
                label: charge.label.clone(),
                amount,
                how: How::Back {
                    charged,
                    less: charged.minus(amount),
                },
                bound: None,
            });
        }
    }
    back
}
