//! The word on the flag, and the line under it.

use super::Multiple;
use crate::money::{Currency, Money, plain};

/// The verdict. In order: a better one is greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Put it back.
    Leave,
    /// Worth it for less, and the seller may come down so far.
    Haggle,
    /// Worth the ask.
    Buy,
}

/// The second line of the flag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flag {
    /// Buy; yet try an opening offer.
    Try(Money),
    /// Buy at the ask: an opening offer would not be under it.
    AtTheAsk,
    /// Buy, at an opening offer where there is one; and no rule says what is too little.
    NoMinimum(Option<Money>),
    /// Buy: it is free.
    Free,
    /// Haggle: open at an offer, where there is a whole coin to open with, and stop at the ceiling.
    OpenStop {
        /// The opening offer.
        open: Option<Money>,
        /// The ceiling shown.
        stop: Money,
    },
    /// Leave: a loss of so much at the likely price.
    WouldLose(Money),
    /// Leave: a loss of so much if it sells low.
    WouldLoseIfLow(Money),
    /// Leave: it leaves less than the least to keep.
    KeepsUnder {
        /// What it leaves.
        keep: Money,
        /// The least to keep.
        least: Money,
    },
    /// Leave: what is left is not so many times what is paid.
    TooFewTimes(Multiple),
    /// Leave: the things of a pile are worth so much, each by its own limit.
    OneByOne(Money),
    /// Leave: a rule breaks even at a price of nothing.
    NotEvenFree,
}

impl Verdict {
    /// The word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Buy => "Buy",
            Self::Haggle => "Haggle",
            Self::Leave => "Leave",
        }
    }
}

impl Flag {
    /// The line as text, or `None` where there is nothing to add to the word. An offer in whole units is shown without
    /// its decimals: "Offer 4 first".
    pub fn sentence(self, currency: Currency) -> Option<String> {
        let full = |money| plain(money, currency);
        let short = |money: Money| {
            let unit = currency.unit().minor();
            if money.minor() % unit == 0 {
                (money.minor() / unit).to_string()
            } else {
                full(money)
            }
        };
        Some(match self {
            Self::Try(offer) => format!("Offer {} first", short(offer)),
            Self::NoMinimum(Some(offer)) => format!("Offer {} first; no minimum", short(offer)),
            Self::NoMinimum(None) => "No minimum set".to_owned(),
            Self::AtTheAsk => return None,
            Self::Free => "It is free".to_owned(),
            Self::OpenStop {
                open: Some(open),
                stop,
            } => format!("Open at {}, stop at {}", short(open), full(stop)),
            Self::OpenStop { open: None, stop } => format!("Stop at {}", full(stop)),
            Self::WouldLose(loss) => format!("You\u{2019}d lose {}", full(loss)),
            Self::WouldLoseIfLow(loss) => format!("Sold low, you lose {}", full(loss)),
            Self::KeepsUnder { keep, least } => {
                format!("You keep {}, under {}", full(keep), full(least))
            }
            Self::TooFewTimes(times) => format!("Under {times} times what you pay"),
            Self::OneByOne(most) => format!("One by one worth {}", full(most)),
            Self::NotEvenFree => "Not even free".to_owned(),
        })
    }
}
