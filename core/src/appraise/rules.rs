//! The trader's limits, and which of them a price breaks.

use serde::{Deserialize, Serialize};

use crate::money::{Currency, Money, Rate};

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
}

/// One house rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Keep at least so much at the likely price.
    LeastKeep,
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
        }
    }

    /// Are they fit to be saved?
    ///
    /// # Errors
    /// A [`RulesError`] with the sentence to show.
    pub fn check(&self) -> Result<(), RulesError> {
        let least = self.least_keep.unwrap_or(Money::ZERO);
        if least.is_negative() {
            return Err(RulesError::NegativeKeep);
        }
        if self.cash_step.is_negative() {
            return Err(RulesError::NegativeStep);
        }
        if least > Money::TYPED_MAX || self.cash_step > Money::TYPED_MAX {
            return Err(RulesError::TooLarge);
        }
        Ok(())
    }

    /// The first rule that these keeps break, in the order of [`Rule`]; `None` when all hold.
    pub(super) fn broken(&self, keep: Money, low_keep: Money) -> Option<Rule> {
        if self.least_keep.is_some_and(|least| keep < least) {
            Some(Rule::LeastKeep)
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
