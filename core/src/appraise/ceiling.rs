//! The greatest ask at which every house rule still holds.

use super::{HouseRules, Rule, Sums};
use crate::money::{Money, Rate, down_to_step, percent_of};

/// "No more than."
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ceiling {
    /// To the minor unit. This one decides.
    pub exact: Money,
    /// The one to show: rounded down to the cash step, unless that would leave nothing of it or the ask lies between.
    pub shown: Money,
    /// The rule that one more minor unit would break.
    pub bound_by: Rule,
}

/// The rule that an ask breaks, or `None` when all hold. The one judging function: the verdict and the ceiling both ask it.
pub(super) fn broken_at(
    rules: &HouseRules,
    likely: &Sums,
    low: &Sums,
    premium: Rate,
    ask: Money,
) -> Option<Rule> {
    rules.broken(likely.before, low.before, with_premium(ask, premium))
}

/// What is paid when this is agreed: the premium comes on top, rounded half away from zero.
pub(super) fn with_premium(ask: Money, premium: Rate) -> Money {
    ask.plus(percent_of(ask, premium))
}

/// The greatest ask that breaks no rule, by bisection on the judging function; `Err` with the rule that even a free thing
/// breaks. A dearer ask lowers every keep, so once a rule is broken it stays broken: bisection can't miss.
pub(super) fn greatest_ask(
    rules: &HouseRules,
    likely: &Sums,
    low: &Sums,
    premium: Rate,
) -> Result<(Money, Rule), Rule> {
    let broken = |minor: i64| broken_at(rules, likely, low, premium, Money::new(minor));
    if let Some(rule) = broken(0) {
        return Err(rule);
    }
    let mut holds = 0;
    // The first ask known to break a rule: one that is over what is left at the likely price makes a loss.
    let mut breaks = (likely.before.minor() + 1).min(Money::MAX.minor());
    let mut bound_by = broken(breaks).unwrap_or(Rule::NoLoss);
    while breaks - holds > 1 {
        let middle = holds + (breaks - holds) / 2;
        match broken(middle) {
            None => holds = middle,
            Some(rule) => {
                breaks = middle;
                bound_by = rule;
            }
        }
    }
    Ok((Money::new(holds), bound_by))
}

impl Ceiling {
    /// The ceiling as it is shown while nothing is asked.
    pub(super) fn of(exact: Money, bound_by: Rule, step: Money) -> Self {
        let stepped = down_to_step(exact, step);
        let shown = if stepped.is_zero() { exact } else { stepped };
        Self {
            exact,
            shown,
            bound_by,
        }
    }

    /// Shown exactly where the ask lies between what is shown and what decides.
    pub(super) fn showing(mut self, ask: Option<Money>) -> Self {
        if ask.is_some_and(|ask| self.shown < ask && ask <= self.exact) {
            self.shown = self.exact;
        }
        self
    }
}
