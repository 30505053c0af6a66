//! The form of the house rules and allowances.

use super::complaint::{Complaint, optional};
use super::form::{Form, form_json};
use crate::appraise::{HouseRules, Multiple};
use crate::book::State;
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, Rate, parse, plain};
use crate::worth::Allowances;
use serde::{Deserialize, Serialize};

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RulesInput {
    /// The least to keep.
    LeastKeep,
    /// The least multiple.
    LeastMultiple,
    /// The longest wait.
    LongestWait,
    /// The cash step.
    CashStep,
    /// How far sellers come down.
    Reach,
    /// Set aside for things that never sell.
    Unsold,
    /// Set aside for offers.
    Offers,
    /// Set aside for returns.
    Returns,
    /// An hour of the trader's own work.
    Hourly,
}

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct RulesForm {
    /// The least to keep; empty switches the rule off.
    pub least_keep: String,
    /// The least multiple; empty switches the rule off.
    pub least_multiple: String,
    /// The longest wait in days; empty switches the rule off.
    pub longest_wait: String,
    /// No loss if it sells low.
    pub no_loss_if_low: bool,
    /// The cash step; empty for none.
    pub cash_step: String,
    /// How far sellers come down, in percent.
    pub reach: String,
    /// Percent set aside for things that never sell.
    pub unsold: String,
    /// Percent set aside for offers.
    pub offers: String,
    /// Percent set aside for returns.
    pub returns: String,
    /// What an hour of the trader's own work counts for; empty where it isn't counted.
    pub hourly: String,
}

read_form!(RulesForm: least_keep least_multiple longest_wait no_loss_if_low cash_step reach unsold offers returns hourly);

/// The text of a field, by a reference of either sort.
macro_rules! reach {
    ($form:expr, $input:expr, $($by:tt)+) => {
        match $input {
            RulesInput::LeastKeep => $($by)+ $form.least_keep,
            RulesInput::LeastMultiple => $($by)+ $form.least_multiple,
            RulesInput::LongestWait => $($by)+ $form.longest_wait,
            RulesInput::CashStep => $($by)+ $form.cash_step,
            RulesInput::Reach => $($by)+ $form.reach,
            RulesInput::Unsold => $($by)+ $form.unsold,
            RulesInput::Offers => $($by)+ $form.offers,
            RulesInput::Returns => $($by)+ $form.returns,
            RulesInput::Hourly => $($by)+ $form.hourly,
        }
    };
}

impl Form for RulesForm {
    type Input = RulesInput;

    fn text(&self, input: RulesInput) -> Option<&String> {
        Some(reach!(self, input, &))
    }

    fn text_mut(&mut self, input: RulesInput) -> Option<&mut String> {
        Some(reach!(self, input, &mut))
    }

    form_json!();
}

/// A setting as text; empty when it is off.
fn shown<T: ToString>(setting: Option<T>) -> String {
    setting
        .map(|setting| setting.to_string())
        .unwrap_or_default()
}

impl RulesForm {
    /// The form of the rules as they stand.
    #[must_use]
    pub fn of(state: &State) -> Option<Self> {
        let currency = state.currency()?;
        let (rules, aside) = (state.house_rules(currency), state.allowances());
        Some(Self {
            least_keep: rules
                .least_keep
                .map(|keep| plain(keep, currency))
                .unwrap_or_default(),
            least_multiple: shown(rules.least_multiple),
            longest_wait: shown(rules.longest_wait),
            no_loss_if_low: rules.no_loss_if_low,
            cash_step: plain(rules.cash_step, currency),
            reach: rules.reach.to_string(),
            unsold: aside.unsold.to_string(),
            offers: aside.offers.to_string(),
            returns: aside.returns.to_string(),
            hourly: rules
                .hourly
                .map(|hour| plain(hour, currency))
                .unwrap_or_default(),
        })
    }

    /// Reads the form.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn read(
        &self,
        currency: Currency,
    ) -> Result<(HouseRules, Allowances), Vec<Complaint<RulesInput>>> {
        let mut complaints = Vec::new();
        let mut complain = |field, error: String| {
            complaints.push(Complaint {
                field,
                sentence: error,
            });
        };
        let mut money = |field, text: &str| {
            optional(text, |text| parse(text, currency)).unwrap_or_else(|error| {
                complain(field, error.to_string());
                None
            })
        };
        let least_keep = money(RulesInput::LeastKeep, &self.least_keep);
        let cash_step = money(RulesInput::CashStep, &self.cash_step).unwrap_or(Money::ZERO);
        let hourly = money(RulesInput::Hourly, &self.hourly);
        let times = |text: &str| Multiple::parse(text).ok_or("Type how many times, such as 2.5.");
        let least_multiple = optional(&self.least_multiple, times).unwrap_or_else(|error| {
            complain(RulesInput::LeastMultiple, error.to_owned());
            None
        });
        let days = |text: &str| match text.trim().parse::<u16>() {
            Ok(days) if days > 0 => Ok(days),
            _ => Err("Type a number of days, such as 60."),
        };
        let longest_wait = optional(&self.longest_wait, days).unwrap_or_else(|error| {
            complain(RulesInput::LongestWait, error.to_owned());
            None
        });
        let mut rate = |field, text: &str| {
            let read = optional(text, Rate::parse).unwrap_or_else(|error| {
                complain(field, error.to_string());
                None
            });
            read.unwrap_or_default()
        };
        let rules = HouseRules {
            least_keep,
            no_loss_if_low: self.no_loss_if_low,
            cash_step,
            reach: rate(RulesInput::Reach, &self.reach),
            least_multiple,
            longest_wait,
            hourly,
        };
        let aside = Allowances {
            unsold: rate(RulesInput::Unsold, &self.unsold),
            offers: rate(RulesInput::Offers, &self.offers),
            returns: rate(RulesInput::Returns, &self.returns),
        };
        if let Err(error) = aside.check() {
            complain(RulesInput::Unsold, error.to_string());
        }
        if let Err(error) = rules.check() {
            complain(RulesInput::LeastKeep, error.to_string());
        }
        if complaints.is_empty() {
            Ok((rules, aside))
        } else {
            Err(complaints)
        }
    }
}
