//! The trader's limits, and which of them a price breaks.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::money::{Currency, Money, Rate};
use crate::number;

/// The trader's limits. A rule that is off doesn't judge; that a buy mustn't lose at the likely price always holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HouseRules {
    /// Least keep: what a buy must leave at the likely price. `None` is off.
    pub least_keep: Option<Money>,
    /// No loss if it sells low.
    pub no_loss_if_low: bool,
    /// The step of cash prices: a ceiling is shown rounded down to it. Nothing shows it exactly.
    pub cash_step: Money,
    /// How far sellers come down from their ask, in percent of it.
    pub reach: Rate,
    /// Least multiple: what is left of the sale must be so many times what was paid. `None` is off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_multiple: Option<Multiple>,
    /// Longest wait for a sale, in days. `None` is off. While nothing is known of waiting times it passes, with a note.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub longest_wait: Option<u16>,
    /// What an hour of the trader's own work counts for. `None`: it is not counted by the hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hourly: Option<Money>,
}

/// How many times, in hundredths: 250 is 2.5 times.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Multiple(pub u16);

impl Multiple {
    /// Reads "2.5", "3" or "1,25": from 0 to 99.99, two decimals at most.
    pub fn parse(text: &str) -> Option<Self> {
        let number = number::read(text).ok()?;
        let (whole, part) = (number.whole, number.part);
        if whole.len() > 2 || part.len() > 2 {
            return None;
        }
        let whole = if whole.is_empty() { "0" } else { whole };
        let whole: u16 = whole.parse().ok()?;
        let part: u16 = format!("{part:0<2}").parse().ok()?;
        Some(Self(whole.saturating_mul(100).saturating_add(part)))
    }
}

impl fmt::Display for Multiple {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, part) = (self.0 / 100, self.0 % 100);
        match part {
            0 => write!(f, "{whole}"),
            _ if part % 10 == 0 => write!(f, "{whole}.{}", part / 10),
            _ => write!(f, "{whole}.{part:02}"),
        }
    }
}

/// One house rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Keep at least so much at the likely price.
    LeastKeep,
    /// Left at the likely price must be so many times what was paid.
    LeastMultiple,
    /// No loss if it sells at the low price.
    NoLossIfLow,
    /// No loss at the likely price. Always on.
    NoLoss,
}

/// Why house rules can't be saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RulesError {
    /// A least keep below nothing.
    #[error("The least you keep can't be less than nothing.")]
    NegativeKeep,
    /// A cash step below nothing.
    #[error("The cash step can't be less than nothing.")]
    NegativeStep,
    /// An hour of work below nothing.
    #[error("An hour of your work can't count for less than nothing.")]
    NegativeHour,
    /// Over what may be typed.
    #[error("That is more than one amount may be.")]
    TooLarge,
}

impl HouseRules {
    /// Rules to start from, before the trader set any: no least keep, no loss if it sells low, cash in half units where
    /// the currency has them, sellers come down by half. Common practice, no source.
    pub fn starting(currency: Currency) -> Self {
        let unit = currency.unit().minor();
        Self {
            least_keep: None,
            no_loss_if_low: true,
            cash_step: Money::new(if unit > 1 { unit / 2 } else { unit }),
            reach: Rate::percent(50),
            least_multiple: None,
            longest_wait: None,
            hourly: None,
        }
    }

    /// Is there any limit under which a profit is not worth the trader's time?
    pub fn has_minimum(&self) -> bool {
        let is_some = |least: Money| least > Money::ZERO;
        self.least_keep.is_some_and(is_some) || self.least_multiple.is_some()
    }

    /// Are they fit to be saved?
    ///
    /// # Errors
    /// A [`RulesError`] with the sentence to show.
    pub fn check(&self) -> Result<(), RulesError> {
        let least = self.least_keep.unwrap_or(Money::ZERO);
        let hourly = self.hourly.unwrap_or(Money::ZERO);
        if hourly.is_negative() {
            return Err(RulesError::NegativeHour);
        }
        if least.is_negative() {
            return Err(RulesError::NegativeKeep);
        }
        if self.cash_step.is_negative() {
            return Err(RulesError::NegativeStep);
        }
        if [least, self.cash_step, hourly]
            .iter()
            .any(|amount| *amount > Money::TYPED_MAX)
        {
            return Err(RulesError::TooLarge);
        }
        Ok(())
    }

    /// The first rule that an ask breaks, in the order of [`Rule`]; `None` when all hold. `likely` and `low` are what is left at those
    /// prices before the thing is paid for.
    pub(super) fn broken(&self, likely: Money, low: Money, ask: Money) -> Option<Rule> {
        let (keep, low_keep) = (likely.minus(ask), low.minus(ask));
        let is_under = |times: Multiple| {
            i128::from(likely.minor()) * 100 < i128::from(ask.minor()) * i128::from(times.0)
        };
        if self.least_keep.is_some_and(|least| keep < least) {
            Some(Rule::LeastKeep)
        } else if self.least_multiple.is_some_and(is_under) {
            Some(Rule::LeastMultiple)
        } else if self.no_loss_if_low && low_keep.is_negative() {
            Some(Rule::NoLossIfLow)
        } else if keep.is_negative() {
            Some(Rule::NoLoss)
        } else {
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn starting(code: &str) -> HouseRules {
        HouseRules::starting(Currency::from_code(code).unwrap())
    }

    #[test]
    fn rules_to_start_from_suit_the_currency() {
        assert_eq!(starting("USD").cash_step, Money::new(50));
        assert_eq!(starting("KWD").cash_step, Money::new(500));
        assert_eq!(starting("JPY").cash_step, Money::new(1));
        assert_eq!(starting("USD").check(), Ok(()));
    }

    #[test]
    fn multiples_are_read_and_shown() {
        let check = |text, hundredths: Option<u16>, shown: &str| {
            assert_eq!(
                Multiple::parse(text).map(|times| times.0),
                hundredths,
                "{text}"
            );
            if let Some(times) = hundredths {
                assert_eq!(Multiple(times).to_string(), shown);
            }
        };
        check("2.5", Some(250), "2.5");
        check(" 3 ", Some(300), "3");
        check("1,25", Some(125), "1.25");
        check("99.99", Some(9_999), "99.99");
        check("0.05", Some(5), "0.05");
        for bad in ["", "x", "100", "1.234", "-1", "1e2", "."] {
            check(bad, None, "");
        }
    }

    #[test]
    fn rules_below_nothing_or_beyond_typing_are_refused() {
        let rules = |least, step| HouseRules {
            least_keep: Some(least),
            cash_step: step,
            ..starting("USD")
        };
        let (less, none, much) = (Money::new(-1), Money::ZERO, Money::MAX);
        assert_eq!(rules(less, none).check(), Err(RulesError::NegativeKeep));
        assert_eq!(rules(none, less).check(), Err(RulesError::NegativeStep));
        assert_eq!(rules(much, none).check(), Err(RulesError::TooLarge));
        assert_eq!(rules(none, much).check(), Err(RulesError::TooLarge));
    }

    #[test]
    fn rules_read_back_from_their_text() {
        let text = serde_json::to_string(&starting("USD")).unwrap();
        assert_eq!(
            text,
            r#"{"least_keep":null,"no_loss_if_low":true,"cash_step":50,"reach":"50"}"#
        );
        assert_eq!(
            serde_json::from_str::<HouseRules>(&text).unwrap(),
            starting("USD")
        );
    }
}
