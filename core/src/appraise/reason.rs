//! Why the verdict is what it is: one reason a rule, then how far the ask is from the ceiling.

use super::{Ceiling, HouseRules, Multiple, Sums, Verdict};
use crate::money::{Currency, Money, Rate, plain};

/// One reason. Amounts of a loss are positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Least keep holds.
    KeepsEnough {
        /// What you keep.
        keep: Money,
        /// The least you keep.
        least: Money,
    },
    /// Least keep breaks.
    KeepsTooLittle {
        /// What you keep; below nothing is a loss.
        keep: Money,
        /// The least you keep.
        least: Money,
    },
    /// Least multiple holds, or breaks.
    Multiple {
        /// Whether it holds.
        holds: bool,
        /// What is left of the sale.
        left: Money,
        /// How many times what was paid it has to be.
        times: Multiple,
    },
    /// Longest wait: nothing is known yet.
    WaitUnknown {
        /// The longest wait, in days.
        days: u16,
    },
    /// No loss if low holds.
    HoldsIfLow {
        /// The low price.
        price: Money,
        /// What you keep at it.
        keep: Money,
    },
    /// No loss if low breaks.
    LosesIfLow {
        /// The low price.
        price: Money,
        /// What you lose at it.
        loss: Money,
    },
    /// No least keep and no least multiple are set.
    NoMinimum,
    /// Every rule holds of the sum of a pile, yet its things are worth less, each by its own limit.
    OneByOne,
    /// A loss at the likely price.
    Loses {
        /// The likely price.
        price: Money,
        /// What you lose at it.
        loss: Money,
    },
    /// The ask is at or under the ceiling.
    UnderCeiling {
        /// The ceiling shown.
        ceiling: Money,
    },
    /// The ask is over the ceiling, but the seller may come down so far.
    WithinReach {
        /// The ceiling shown.
        ceiling: Money,
        /// How far sellers come down.
        reach: Rate,
    },
    /// The ask is over the ceiling by more than sellers come down.
    BeyondReach {
        /// The ceiling shown.
        ceiling: Money,
        /// How far sellers come down.
        reach: Rate,
    },
    /// A rule breaks even at a price of nothing.
    NotEvenFree,
}

impl Reason {
    /// All reasons when so much is paid, the deciding one last.
    pub(super) fn all(
        rules: &HouseRules,
        (likely, low): (&Sums, &Sums),
        ceiling: Option<&Ceiling>,
        verdict: Verdict,
        paid: Money,
    ) -> Vec<Self> {
        let (keep, low_keep) = (likely.keep(paid), low.keep(paid));
        let mut reasons = Vec::with_capacity(6);
        if !rules.has_minimum() {
            reasons.push(Self::NoMinimum);
        } else if let Some(least) = rules.least_keep {
            reasons.push(if keep >= least {
                Self::KeepsEnough { keep, least }
            } else {
                Self::KeepsTooLittle { keep, least }
            });
        }
        if let Some(times) = rules.least_multiple {
            let left = likely.before;
            let needed = i128::from(paid.minor()) * i128::from(times.0);
            let holds = i128::from(left.minor()) * 100 >= needed;
            reasons.push(Self::Multiple { holds, left, times });
        }
        if let Some(days) = rules.longest_wait {
            reasons.push(Self::WaitUnknown { days });
        }
        if rules.no_loss_if_low {
            let price = low.price;
            reasons.push(if low_keep.is_negative() {
                let loss = low_keep.abs();
                Self::LosesIfLow { price, loss }
            } else {
                Self::HoldsIfLow {
                    price,
                    keep: low_keep,
                }
            });
        }
        if keep.is_negative() {
            let (price, loss) = (likely.price, keep.abs());
            reasons.push(Self::Loses { price, loss });
        }
        let reach = rules.reach;
        reasons.push(match ceiling.map(|ceiling| ceiling.shown) {
            None => Self::NotEvenFree,
            Some(ceiling) => match verdict {
                Verdict::Buy => Self::UnderCeiling { ceiling },
                Verdict::Haggle => Self::WithinReach { ceiling, reach },
                Verdict::Leave => Self::BeyondReach { ceiling, reach },
            },
        });
        reasons
    }

    /// The reason as a sentence.
    pub fn sentence(self, currency: Currency) -> String {
        let show = |money| plain(money, currency);
        match self {
            Self::KeepsEnough { keep, least } => {
                format!("You keep {}, at least {}.", show(keep), show(least))
            }
            Self::KeepsTooLittle { keep, least } if keep.is_negative() => {
                format!("The least you keep is {}, and this is a loss.", show(least))
            }
            Self::KeepsTooLittle { keep, least } => {
                format!("You keep {}, and the least is {}.", show(keep), show(least))
            }
            Self::NoMinimum => "No minimum is set: any profit counts.".to_owned(),
            Self::OneByOne => {
                "Each thing has its own limit, and together they are worth less.".to_owned()
            }
            Self::Multiple {
                holds: true,
                left,
                times,
            } => {
                format!("{} is left, {times} times the ask or more.", show(left))
            }
            Self::Multiple { left, times, .. } => {
                format!("{} is left, less than {times} times the ask.", show(left))
            }
            Self::WaitUnknown { days } => {
                format!(
                    "How long it takes to sell is not known yet; your longest wait is {days} days."
                )
            }
            Self::HoldsIfLow { price, keep } => {
                format!("At {} you keep {}.", show(price), show(keep))
            }
            Self::LosesIfLow { price, loss } | Self::Loses { price, loss } => {
                format!("At {} you lose {}.", show(price), show(loss))
            }
            Self::UnderCeiling { ceiling } => {
                format!("The ask is within {}, the most to pay.", show(ceiling))
            }
            Self::WithinReach { ceiling, reach } => format!(
                "The most to pay is {}, and sellers come down by up to {reach} %.",
                show(ceiling)
            ),
            Self::BeyondReach { ceiling, reach } => format!(
                "The most to pay is {}, and sellers come down by {reach} % at most.",
                show(ceiling)
            ),
            Self::NotEvenFree => "Even for nothing it breaks your rules.".to_owned(),
        }
    }
}
