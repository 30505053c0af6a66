//! From a charge of the terms to the texts of a form.

use super::super::choices::{Back, Of, Promotion, Times, Way};
use super::super::marks::marks;
use super::{ChargeForm, SCOPES, StepForm};
use crate::money::{Currency, Money, plain};
use crate::terms::{Amount, Base, Charge, Period, Refund};

impl ChargeForm {
    /// The form of a charge.
    pub(in crate::view::venue_form) fn of(charge: &Charge, currency: Currency) -> Self {
        let text = |money: Money| plain(money, currency);
        let maybe = |money: Option<Money>| money.map(text).unwrap_or_default();
        let mut form = Self {
            label: charge.label.clone(),
            times: Times::at(
                SCOPES
                    .iter()
                    .position(|one| *one == charge.scope)
                    .unwrap_or(0),
            ),
            least: maybe(charge.least),
            most: maybe(charge.most),
            from: maybe(charge.when.from),
            below: maybe(charge.when.below),
            kinds: charge.when.kinds.clone(),
            promoted: match charge.when.promoted {
                None => Promotion::Any,
                Some(true) => Promotion::Only,
                Some(false) => Promotion::Without,
            },
            regions: charge.when.regions.clone(),
            unsold: charge.owed_unsold,
            ..Self::default()
        };
        form.way = match &charge.amount {
            Amount::Percent(rate) => {
                form.percent = rate.to_string();
                Way::Percent
            }
            Amount::Flat(flat) => {
                form.flat = text(*flat);
                Way::Flat
            }
            Amount::Brackets(_) => Way::Brackets,
            Amount::Slices(_) => Way::Slices,
            Amount::Tiers {
                by: Period::Month, ..
            } => Way::ByMonth,
            Amount::Tiers {
                by: Period::Year, ..
            } => Way::ByYear,
        };
        for step in charge.amount.steps() {
            form.steps.push(StepForm {
                from: text(step.from),
                percent: some(!step.percent.is_zero(), || step.percent.to_string()),
                flat: some(!step.flat.is_zero(), || text(step.flat)),
            });
        }
        form.of = match charge.base {
            Base::Price => Of::Price,
            Base::PriceAndPost => Of::PriceAndPost,
            Base::OrderTotal(tax) => {
                form.tax = some(!tax.is_zero(), || tax.to_string());
                Of::OrderTotal
            }
            Base::Charges(named) => {
                form.others = marks(named);
                Of::Charges
            }
        };
        form.back = match charge.refund {
            Refund::Kept => Back::Kept,
            Refund::Returned => Back::All,
            Refund::ReturnedLess(less) => {
                form.less = text(less);
                Back::AllBut
            }
        };
        form
    }
}

fn some(is: bool, text: impl FnOnce() -> String) -> String {
    if is { text() } else { String::new() }
}
