//! The purse of a trip: the sum of its movements, less what was paid in cash for lots. Nothing of it is stored but the movements.

use crate::json::words;
use crate::money::Money;

/// What moved the purse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Moved {
    /// Cash taken along.
    TookOut,
    /// Cash spent on something else: entry, parking, a sandwich.
    OtherSpent,
    /// Cash got for something sold on the way.
    Sold,
    /// The purse was counted: the difference to what should have been in it.
    Counted,
}

words!(Moved: TookOut "took_out" OtherSpent "other_spent" Sold "sold" Counted "counted");

impl Moved {
    /// An amount as people say it, as it moves the purse: what is spent leaves it.
    #[must_use]
    pub const fn signed(self, amount: Money) -> Money {
        match self {
            Self::OtherSpent => amount.negated(),
            Self::TookOut | Self::Sold | Self::Counted => amount,
        }
    }
}

/// How a lot was paid for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paying {
    /// Out of the purse.
    #[default]
    Cash,
    /// In another way: the purse does not move.
    Other,
}

words!(Paying: Cash "cash" Other "other");

impl Paying {
    /// Its word on screen, after "paid in".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cash => "cash",
            Self::Other => "another way",
        }
    }
}

/// The purse of a trip. What left it is over nothing here; `counted` has either sign.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Purse {
    /// Cash taken along.
    pub took_out: Money,
    /// Cash got on the way.
    pub sold: Money,
    /// Cash spent on other things than lots.
    pub other_spent: Money,
    /// What counting found over, or under nothing what it missed.
    pub counted: Money,
    /// Cash paid for lots.
    pub spent_cash: Money,
    /// What was paid for lots in another way.
    pub spent_other: Money,
}

impl Purse {
    /// Takes in a movement, signed as it moves the purse.
    pub fn moved(&mut self, what: Moved, amount: Money) {
        let (sum, more) = match what {
            Moved::TookOut => (&mut self.took_out, amount),
            Moved::Sold => (&mut self.sold, amount),
            Moved::Counted => (&mut self.counted, amount),
            Moved::OtherSpent => (&mut self.other_spent, amount.negated()),
        };
        *sum = sum.plus(more);
    }

    /// Takes in what was paid for a lot.
    pub fn paid(&mut self, by: Paying, amount: Money) {
        let sum = match by {
            Paying::Cash => &mut self.spent_cash,
            Paying::Other => &mut self.spent_other,
        };
        *sum = sum.plus(amount);
    }

    /// What should be in it. Under nothing when more was paid than it held.
    #[must_use]
    pub fn left(&self) -> Money {
        let came = self.took_out.plus(self.sold).plus(self.counted);
        came.minus(self.other_spent).minus(self.spent_cash)
    }

    /// What was paid for lots, in cash and otherwise.
    #[must_use]
    pub fn spent(&self) -> Money {
        self.spent_cash.plus(self.spent_other)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The picture: 80.00 taken along, 26.00 paid in cash and 4.50 otherwise leave 54.00.
    #[test]
    fn the_purse_of_the_picture_has_fifty_four_left() {
        let mut purse = Purse::default();
        purse.moved(Moved::TookOut, Money::new(80_00));
        for cash in [10_00, 10_00, 6_00, 0] {
            purse.paid(Paying::Cash, Money::new(cash));
        }
        purse.paid(Paying::Other, Money::new(4_50));
        assert_eq!(
            (purse.left(), purse.spent_cash, purse.spent()),
            (Money::new(54_00), Money::new(26_00), Money::new(30_50))
        );
        purse.moved(
            Moved::OtherSpent,
            Moved::OtherSpent.signed(Money::new(3_00)),
        );
        purse.moved(Moved::Sold, Money::new(1_50));
        purse.moved(Moved::Counted, Money::new(-50));
        assert_eq!(purse.left(), Money::new(52_00));
        assert_eq!(purse.other_spent, Money::new(3_00));
    }
}
