//! What is set aside before judging: for things that never sell, offers taken, and returns.

use serde::{Deserialize, Serialize};

use super::WorthError;
use crate::money::{Money, Rate, percent_of, split};

/// Shares of the thing's own price that are set aside, on from the first day. The starting figures (15, 6 and 4 percent)
/// are common practice, no source; the trader edits them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Allowances {
    /// For things that never sell.
    pub unsold: Rate,
    /// For the usual price cut by offers.
    pub offers: Rate,
    /// For returns.
    pub returns: Rate,
}

/// What one line of the set-aside is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Allowance {
    /// Things that never sell.
    Unsold,
    /// Offers taken.
    Offers,
    /// Returns.
    Returns,
}

/// What is set aside of one price. The lines sum to the total.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// All allowances together, of the price, rounded once.
    pub total: Money,
    /// The same shared out over the allowances.
    pub lines: [(Allowance, Rate, Money); 3],
}

impl SetAside {
    /// What is set aside for one of them.
    #[must_use]
    pub fn of(&self, what: Allowance) -> Money {
        let lines = self.lines.iter().filter(|line| line.0 == what);
        lines.map(|line| line.2).sum()
    }
}

impl Default for Allowances {
    fn default() -> Self {
        Self {
            unsold: Rate::percent(15),
            offers: Rate::percent(6),
            returns: Rate::percent(4),
        }
    }
}

impl Allowances {
    /// Nothing is set aside.
    pub const NONE: Self = Self {
        unsold: Rate::ZERO,
        offers: Rate::ZERO,
        returns: Rate::ZERO,
    };

    /// Are they fit to be saved?
    ///
    /// # Errors
    /// [`WorthError::AllowancesOverHundred`] when they come to more than the whole price.
    pub fn check(self) -> Result<(), WorthError> {
        self.unsold
            .checked_add(self.offers)
            .and_then(|sum| sum.checked_add(self.returns))
            .map(|_| ())
            .ok_or(WorthError::AllowancesOverHundred)
    }

    /// All of them together, the whole at most.
    pub fn rate(self) -> Rate {
        self.unsold.plus(self.offers).plus(self.returns)
    }

    /// What they set aside of a price: the total is rounded once, then shared by largest remainder, so that the lines
    /// shown always add up to it.
    pub fn set_aside(self, price: Money) -> SetAside {
        let total = percent_of(price, self.rate());
        let parts = [
            (Allowance::Unsold, self.unsold),
            (Allowance::Offers, self.offers),
            (Allowance::Returns, self.returns),
        ];
        let shares = split(
            total,
            &parts.map(|(_, rate)| u64::from(rate.ten_thousandths())),
        );
        let mut lines = parts.map(|(what, rate)| (what, rate, Money::ZERO));
        for (line, share) in lines.iter_mut().zip(shares) {
            line.2 = share;
        }
        SetAside { total, lines }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(allowances: Allowances, price: i64, total: i64, lines: [i64; 3]) {
        let aside = allowances.set_aside(Money::new(price));
        assert_eq!(aside.total.minor(), total);
        assert_eq!(aside.lines.map(|line| line.2.minor()), lines);
    }

    #[test]
    fn the_lines_add_up_to_the_total_rounded_once() {
        check(Allowances::default(), 2600, 650, [390, 156, 104]);
        check(Allowances::default(), 1500, 375, [225, 90, 60]);
        check(Allowances::default(), 2, 1, [1, 0, 0]);
        check(Allowances::NONE, 2600, 0, [0, 0, 0]);
    }

    #[test]
    fn more_than_the_whole_price_is_refused_yet_has_a_sum() {
        let over = Allowances {
            unsold: Rate::percent(80),
            ..Allowances {
                offers: Rate::percent(80),
                ..Allowances::default()
            }
        };
        assert_eq!(over.check(), Err(WorthError::AllowancesOverHundred));
        assert_eq!(over.set_aside(Money::new(100)).total, Money::new(100));
        assert_eq!(Allowances::default().check(), Ok(()));
    }
}
