//! One line of a settlement, and how it was worked out.

use super::Period;
use crate::money::{Currency, Money, Rate, plain};

/// What one charge comes to on one sale, or what a group makes of several.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The charge's label, or the group's.
    pub label: String,
    /// What it comes to. Below nothing where a group's most takes from the sum of its charges.
    pub amount: Money,
    /// How that was worked out.
    pub how: How,
    /// The limit that decided, where one did: a charge's amount is that limit.
    pub bound: Option<Bound>,
}

/// A limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// Never less.
    Least,
    /// Never more.
    Most,
}

/// How a line was worked out, before any limit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum How {
    /// The same on every sale.
    Flat,
    /// So much percent of an amount.
    Percent {
        /// The percentage.
        rate: Rate,
        /// What it was taken of. To the minor unit; with an assumed tax the charge itself is of the unrounded sum.
        of: Money,
    },
    /// By the bracket that the base lies in.
    Bracket {
        /// Where the bracket begins.
        from: Money,
        /// What it takes.
        part: Part,
    },
    /// By the tier that the running sales have reached.
    Tier {
        /// Which running sales.
        by: Period,
        /// Where the tier begins.
        from: Money,
        /// What it takes.
        part: Part,
    },
    /// By slices: those that the base reaches and that take anything.
    Slices(Vec<Part>),
    /// The mean over where the buyers usually are, and over what usually sells in a month.
    Usual,
    /// What a group's limit makes of the sum of its charges.
    Group {
        /// The sum that was limited.
        sum: Money,
    },
    /// What comes back of a charge.
    Back {
        /// What was charged.
        charged: Money,
        /// What the venue keeps of it.
        less: Money,
    },
}

/// A rate of an amount, and a flat sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// The percentage.
    pub rate: Rate,
    /// What it was taken of.
    pub of: Money,
    /// What was added.
    pub flat: Money,
}

impl Line {
    /// How it was worked out, as text ("10 % of 30.50"); `None` where the amount says it all.
    pub fn working(&self, currency: Currency) -> Option<String> {
        let shown = |money| plain(money, currency);
        let (mut text, limit) = match &self.how {
            How::Flat => (String::new(), self.amount),
            How::Percent { rate, of } => (format!("{rate} % of {}", shown(*of)), self.amount),
            How::Bracket { from, part } => (
                format!("from {}: {}", shown(*from), sum(&[*part], currency)),
                self.amount,
            ),
            How::Tier { by, from, part } => {
                let by = match by {
                    Period::Month => "month",
                    Period::Year => "year",
                };
                let part = sum(&[*part], currency);
                (format!("from {} a {by}: {part}", shown(*from)), self.amount)
            }
            How::Slices(parts) => (sum(parts, currency), self.amount),
            How::Usual => ("as you usually sell there".to_owned(), self.amount),
            How::Back { less, .. } if less.is_zero() => (String::new(), self.amount),
            How::Back { charged, less } => (
                format!("{} less {}", shown(*charged), shown(*less)),
                self.amount,
            ),
            How::Group { sum } => (format!("together {}", shown(*sum)), sum.plus(self.amount)),
        };
        if let Some(bound) = self.bound {
            let word = match bound {
                Bound::Least => "at least",
                Bound::Most => "at most",
            };
            if !text.is_empty() {
                text.push_str(", ");
            }
            text.push_str(word);
            text.push(' ');
            text.push_str(&shown(limit));
        }
        (!text.is_empty()).then_some(text)
    }
}

/// Parts as a sum: "13 % of 500.00 + 1.00".
fn sum(parts: &[Part], currency: Currency) -> String {
    let mut text = String::new();
    let mut add = |term: String| {
        if !text.is_empty() {
            text.push_str(" + ");
        }
        text.push_str(&term);
    };
    for part in parts {
        if !part.rate.is_zero() {
            add(format!("{} % of {}", part.rate, plain(part.of, currency)));
        }
        if !part.flat.is_zero() {
            add(plain(part.flat, currency));
        }
    }
    if text.is_empty() {
        text = plain(Money::ZERO, currency);
    }
    text
}
