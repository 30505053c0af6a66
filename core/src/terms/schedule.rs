//! A schedule of charges as the trader entered it.
//!
//! In files every choice is written by its name (`{"percent":"10"}`), and a name or a field that this version doesn't know
//! makes the schedule unreadable: terms with a condition that was left out would be misread, which is worse.

use serde::{Deserialize, Serialize};

use super::TermsError;
use crate::money::{Money, Rate};

/// The most charges that one schedule may have.
pub const MAX_CHARGES: usize = 12;
/// The longest label of a charge, in characters.
pub const MAX_LABEL: usize = 40;

/// What a venue takes from one sale: its charges, in the order they are shown.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Schedule {
    /// The charges. None at all is a venue that takes nothing.
    pub charges: Vec<Charge>,
}

/// One rule of the terms.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Charge {
    /// What the venue calls it.
    pub label: String,
    /// What a percentage is taken of. A flat amount has no need of it.
    #[serde(default)]
    pub base: Base,
    /// How much it is.
    pub amount: Amount,
}

/// What a percentage is taken of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Base {
    /// The thing's own price.
    #[default]
    Price,
    /// The price and the postage that the buyer pays.
    PriceAndPost,
}

/// How much a charge is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// So much of the base, rounded half away from zero, once.
    Percent(Rate),
    /// The same amount on every sale.
    Flat(Money),
}

impl Charge {
    /// A percentage of a base.
    pub fn percent(label: &str, rate: Rate, base: Base) -> Self {
        Self {
            label: label.to_owned(),
            base,
            amount: Amount::Percent(rate),
        }
    }

    /// A flat amount on every sale.
    pub fn flat(label: &str, amount: Money) -> Self {
        Self {
            label: label.to_owned(),
            base: Base::Price,
            amount: Amount::Flat(amount),
        }
    }
}

impl Schedule {
    /// Is it fit to be saved?
    ///
    /// # Errors
    /// The first fault found, each with the sentence to show.
    pub fn check(&self) -> Result<(), TermsError> {
        if self.charges.len() > MAX_CHARGES {
            return Err(TermsError::TooMany);
        }
        for (at, charge) in self.charges.iter().enumerate() {
            let position = at + 1;
            if charge.label.trim().is_empty() {
                return Err(TermsError::NoLabel { position });
            }
            if charge.label.chars().count() > MAX_LABEL {
                return Err(TermsError::LongLabel { position });
            }
            match charge.amount {
                Amount::Flat(flat) if flat.is_negative() => {
                    return Err(TermsError::NegativeFlat { position });
                }
                Amount::Flat(flat) if flat > Money::TYPED_MAX => {
                    return Err(TermsError::LargeFlat { position });
                }
                Amount::Flat(_) | Amount::Percent(_) => {}
            }
        }
        if self
            .whole_percentage()
            .is_none_or(|sum| sum == Rate::HUNDRED)
        {
            return Err(TermsError::TakesAll);
        }
        Ok(())
    }

    /// All percentages together, or `None` when they are over the whole.
    pub fn whole_percentage(&self) -> Option<Rate> {
        self.charges
            .iter()
            .try_fold(Rate::ZERO, |sum, charge| match charge.amount {
                Amount::Percent(rate) => sum.checked_add(rate),
                Amount::Flat(_) => Some(sum),
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quayside() -> Schedule {
        Schedule {
            charges: vec![
                Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
                Charge::flat("Order", Money::new(25)),
            ],
        }
    }

    #[test]
    fn a_schedule_is_written_by_names() {
        let json = serde_json::to_string(&quayside()).unwrap();
        assert_eq!(
            json,
            r#"{"charges":[{"label":"Sale","base":"price_and_post","amount":{"percent":"10"}},{"label":"Order","base":"price","amount":{"flat":25}}]}"#
        );
        assert_eq!(serde_json::from_str::<Schedule>(&json).unwrap(), quayside());
        let short = r#"{"charges":[{"label":"Order","amount":{"flat":25}}]}"#;
        assert_eq!(
            serde_json::from_str::<Schedule>(short).unwrap().charges[0].base,
            Base::Price
        );
    }

    #[test]
    fn what_a_later_version_adds_is_unreadable_and_never_misread() {
        for later in [
            r#"{"charges":[{"label":"Sale","amount":{"brackets":[]}}]}"#,
            r#"{"charges":[{"label":"Sale","base":"order_total","amount":{"percent":"10"}}]}"#,
            r#"{"charges":[{"label":"Sale","amount":{"flat":150},"when":{"price_under":1000}}]}"#,
            r#"{"charges":[],"spread":"by_weight"}"#,
            r#"{"charges":[{"label":"Sale","amount":{"percent":10}}]}"#,
        ] {
            assert!(serde_json::from_str::<Schedule>(later).is_err(), "{later}");
        }
    }

    #[test]
    fn a_faulty_schedule_is_refused_with_the_place_of_the_fault() {
        let check = |charges: Vec<Charge>, expected| {
            assert_eq!(Schedule { charges }.check(), expected);
        };
        check(vec![], Ok(()));
        check(quayside().charges, Ok(()));
        check(
            vec![Charge::flat(" ", Money::ZERO)],
            Err(TermsError::NoLabel { position: 1 }),
        );
        check(
            vec![Charge::flat(&"n".repeat(41), Money::ZERO)],
            Err(TermsError::LongLabel { position: 1 }),
        );
        check(
            vec![Charge::flat("Order", Money::new(-1))],
            Err(TermsError::NegativeFlat { position: 1 }),
        );
        check(
            vec![Charge::flat("Order", Money::MAX)],
            Err(TermsError::LargeFlat { position: 1 }),
        );
        check(
            vec![Charge::flat("Order", Money::ZERO); 13],
            Err(TermsError::TooMany),
        );
        let half = Charge::percent("Sale", Rate::percent(50), Base::Price);
        check(vec![half.clone(), half.clone()], Err(TermsError::TakesAll));
        check(
            vec![half.clone(), half.clone(), half],
            Err(TermsError::TakesAll),
        );
    }
}
