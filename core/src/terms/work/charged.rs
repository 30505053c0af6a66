//! What one charge comes to: its base, its form, its limits.

use super::{Cell, FINE, WHOLE, Works, limited, parts_of};
use crate::money::{Money, Rate, nearest};
use crate::terms::{Amount, Base, Positions, Step};

impl Works<'_> {
    /// What one charge comes to, once those before it are worked out.
    pub(super) fn cell(&self, index: usize, price: i64) -> Cell {
        let charge = &self.schedule.charges[index];
        if !self.open[index] || !charge.when.meets_price(price) {
            return Cell::default();
        }
        let (base, parts, fine_base) = self.base(charge.base, price);
        let mut cell = Cell {
            holds: true,
            base,
            parts,
            ..Cell::default()
        };
        // In minor units times `parts` times the whole of a rate: exact until it is rounded, once.
        let (mut exact, mut fine) = (0, 0);
        let mut add = |rate: Rate, of: i128, fine_of: i128, flat: Money| {
            let (rate, flat) = (parts_of(rate), i128::from(flat.minor()));
            exact += of * rate + flat * parts * WHOLE;
            fine += fine_of * rate / WHOLE + flat * FINE;
        };
        match &charge.amount {
            Amount::Percent(rate) => add(*rate, base, fine_base, Money::ZERO),
            Amount::Flat(flat) => add(Rate::ZERO, 0, 0, *flat),
            Amount::Brackets(steps) => {
                let reached = |step: &Step| i128::from(step.from.minor()) * parts <= base;
                cell.step = steps.iter().take_while(|step| reached(step)).count();
                if let Some(step) = cell.step.checked_sub(1).map(|at| steps[at]) {
                    add(step.percent, base, fine_base, step.flat);
                }
            }
            Amount::Tiers { steps, .. } => {
                let reached = |step: &Step| step.from <= self.sale.running;
                cell.step = steps.iter().take_while(|step| reached(step)).count();
                if self.top_tiers {
                    add(charge.amount.top_rate(), base, fine_base, Money::ZERO);
                } else if let Some(step) = cell.step.checked_sub(1).map(|at| steps[at]) {
                    add(step.percent, base, fine_base, step.flat);
                }
            }
            Amount::Slices(steps) => {
                let entered = |step: &Step| i128::from(step.from.minor()) * parts < base;
                cell.step = steps.iter().take_while(|step| entered(step)).count();
                for (at, step) in steps[..cell.step].iter().enumerate() {
                    let from = i128::from(step.from.minor());
                    let (end, fine_end) = if at + 1 < cell.step {
                        let next = i128::from(steps[at + 1].from.minor());
                        (next * parts, next * FINE)
                    } else {
                        (base, fine_base)
                    };
                    add(
                        step.percent,
                        end - from * parts,
                        fine_end - from * FINE,
                        step.flat,
                    );
                }
            }
        }
        let rounded = nearest(exact, parts * WHOLE);
        (cell.amount, cell.bound) = limited(rounded, charge.least, charge.most);
        cell.fine = if cell.bound.is_some() {
            cell.amount * FINE
        } else {
            fine
        };
        cell
    }

    /// The base times its parts, the parts, and the base in fine units.
    fn base(&self, base: Base, price: i64) -> (i128, i128, i128) {
        let price = i128::from(price);
        let all = price + i128::from(self.sale.post_in.minor());
        let whole = |sum: i128| (sum, 1, sum * FINE);
        match base {
            Base::Price => whole(price),
            Base::PriceAndPost => whole(all),
            Base::OrderTotal(assumed) => {
                if let Some(tax) = self.sale.tax {
                    whole(all + i128::from(tax.minor()))
                } else {
                    let total = all * (WHOLE + parts_of(assumed));
                    (total, WHOLE, total * (FINE / WHOLE))
                }
            }
            Base::Charges(named) => {
                let (sum, fine) = self.named(named);
                (sum, 1, fine)
            }
        }
    }

    /// The sum of named charges, with the differences of the groups that are named whole.
    fn named(&self, named: Positions) -> (i128, i128) {
        let (mut sum, mut fine) = (0, 0);
        for (index, cell) in self.cells.iter().enumerate() {
            if named.has(index) {
                (sum, fine) = (sum + cell.amount, fine + cell.fine);
            }
        }
        for group in &self.schedule.groups {
            if named.cover(group.charges) {
                let difference = self.difference(group);
                (sum, fine) = (sum + difference.amount, fine + difference.fine);
            }
        }
        (sum, fine)
    }
}
