//! Working a schedule out at one price: what each charge comes to, and by which of its rules.
//!
//! Beside each rounded amount stands the *fine* one, which would come out if nothing were rounded, in billionths of a minor
//! unit. Between two prices at which a rule changes it is a straight line, so it tells a step in the terms from the jags
//! of rounding.

use super::{Base, Bound, Group, Sale, Schedule, Scope};
use crate::money::{Money, Rate};

mod charged;

/// One minor unit in fine units.
pub(in crate::terms) const FINE: i128 = 1_000_000_000;
/// The whole of a rate, in ten-thousandths of a percent.
pub(in crate::terms) const WHOLE: i128 = 1_000_000;

/// Which charges are worked out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::terms) enum Which {
    /// Those of a sale.
    Sale,
    /// Of those, the ones owed though nothing sells.
    Unsold,
    /// Those by the month.
    Month,
}

/// What one charge comes to at one price. All nothing where it doesn't hold.
#[derive(Clone, Copy, Default)]
pub(in crate::terms) struct Cell {
    pub holds: bool,
    /// Which step decides: its place from 1, or 0 where none does.
    pub step: usize,
    /// Which limit decides, if any.
    pub bound: Option<Bound>,
    /// The base in minor units, times `parts`.
    pub base: i128,
    /// How finely the base is counted: 1, or [`WHOLE`] where a tax is assumed.
    pub parts: i128,
    /// What it comes to, in minor units.
    pub amount: i128,
    /// The same unrounded, in fine units.
    pub fine: i128,
}

/// What a group makes of its charges: the difference, in minor and in fine units.
#[derive(Clone, Copy, Default)]
pub(in crate::terms) struct Difference {
    pub bound: Option<Bound>,
    pub sum: i128,
    pub amount: i128,
    pub fine: i128,
}

/// A schedule at work on a sale, at any price.
pub(in crate::terms) struct Works<'a> {
    pub schedule: &'a Schedule,
    sale: &'a Sale,
    /// Which charges hold, as far as the price doesn't matter.
    pub open: Vec<bool>,
    /// Whether tiers are at their greatest rate, whatever the running sales.
    pub top_tiers: bool,
    /// What each charge came to at the price worked out last.
    pub cells: Vec<Cell>,
}

impl<'a> Works<'a> {
    pub fn new(schedule: &'a Schedule, sale: &'a Sale, which: Which) -> Self {
        let mut open = Vec::with_capacity(schedule.charges.len());
        for charge in &schedule.charges {
            let is_month = charge.scope == Scope::Month;
            let wanted = match which {
                Which::Sale => !is_month,
                Which::Unsold => !is_month && charge.owed_unsold,
                Which::Month => is_month,
            };
            open.push(wanted && charge.when.meets_facts(sale));
        }
        Self {
            schedule,
            sale,
            open,
            top_tiers: false,
            cells: Vec::new(),
        }
    }

    /// A sale with only those charges, by their bits, whose conditions are met as far as the price doesn't matter.
    pub fn sale(schedule: &'a Schedule, sale: &'a Sale, bits: u32) -> Self {
        let mut open = Vec::with_capacity(schedule.charges.len());
        for (at, charge) in schedule.charges.iter().enumerate() {
            open.push(charge.scope != Scope::Month && bits >> (at % 32) & 1 == 1);
        }
        Self {
            schedule,
            sale,
            open,
            top_tiers: false,
            cells: Vec::new(),
        }
    }

    /// Works out all charges at a price in minor units; what they come to stands in `cells`.
    pub fn at(&mut self, price: i64) {
        self.cells.clear();
        for index in 0..self.schedule.charges.len() {
            let cell = self.cell(index, price);
            self.cells.push(cell);
        }
    }

    /// The payout at a price: rounded in minor units, unrounded in fine ones.
    pub fn payout(&mut self, price: i64) -> (i128, i128) {
        self.at(price);
        let (cut, fine) = self.cut();
        let paid = i128::from(price) + i128::from(self.sale.post_in.minor());
        (paid - cut, paid * FINE - fine)
    }

    /// The sum of all charges as worked out last, groups and all.
    pub fn cut(&self) -> (i128, i128) {
        let (mut cut, mut fine) = (0, 0);
        for cell in &self.cells {
            (cut, fine) = (cut + cell.amount, fine + cell.fine);
        }
        for group in &self.schedule.groups {
            let difference = self.difference(group);
            (cut, fine) = (cut + difference.amount, fine + difference.fine);
        }
        (cut, fine)
    }

    /// What a group makes of the charges as worked out last.
    pub fn difference(&self, group: &Group) -> Difference {
        let (mut holds, mut sum, mut fine) = (false, 0, 0);
        for (index, cell) in self.cells.iter().enumerate() {
            if cell.holds && group.charges.has(index) {
                (holds, sum, fine) = (true, sum + cell.amount, fine + cell.fine);
            }
        }
        if !holds {
            return Difference::default();
        }
        match limited(sum, group.least, group.most) {
            (_, None) => Difference {
                sum,
                ..Difference::default()
            },
            (limit, bound) => Difference {
                bound,
                sum,
                amount: limit - sum,
                fine: limit * FINE - fine,
            },
        }
    }

    /// How far the payout can be from the unrounded one, in fine units: half a unit a percentage, and what tax on fees makes
    /// of the halves in its base. A limit never widens the gap. A thousandth is added for the fine amounts themselves.
    pub fn slack(&self) -> i128 {
        let mut gaps: Vec<i128> = Vec::with_capacity(self.schedule.charges.len());
        for charge in &self.schedule.charges {
            let named = match charge.base {
                Base::Charges(named) => gaps
                    .iter()
                    .enumerate()
                    .filter_map(|(index, gap)| named.has(index).then_some(*gap))
                    .sum(),
                _ => 0,
            };
            let rate = parts_of(charge.amount.top_rate());
            gaps.push(match rate {
                0 => 0,
                _ => FINE / 2 + named * rate / WHOLE + 1,
            });
        }
        gaps.iter().sum::<i128>() + FINE / 1000
    }
}

/// A rate in ten-thousandths of a percent.
pub(in crate::terms) fn parts_of(rate: Rate) -> i128 {
    i128::from(rate.ten_thousandths())
}

/// An amount within its limits, and the limit that decided. A least over the most, which no check passes, gives way.
fn limited(amount: i128, least: Option<Money>, most: Option<Money>) -> (i128, Option<Bound>) {
    let at_least = least.map(|least| i128::from(least.minor()));
    let at_most = most.map(|most| i128::from(most.minor()));
    match (at_least, at_most) {
        (_, Some(most)) if amount > most => (most, Some(Bound::Most)),
        (Some(least), Some(most)) if amount < least && least > most => (most, Some(Bound::Most)),
        (Some(least), _) if amount < least => (least, Some(Bound::Least)),
        _ => (amount, None),
    }
}
