//! From the texts of a charge to a charge of the terms.

use super::super::choices::{Back, Of, Promotion, Way};
use super::super::input::{ChargeInput, StepInput, VenueInput};
use super::super::marks::positions;
use super::super::read::Reader;
use super::{ChargeForm, SCOPES};
use crate::money::{Money, Rate};
use crate::terms::{Amount, Base, Charge, MAX_STEPS, Period, Refund, Step, When};

impl ChargeForm {
    /// Reads it. What can't be used is complained of, and stands as nothing in what comes back.
    pub(in crate::view::venue_form) fn read(&self, at: usize, reader: &mut Reader<'_>) -> Charge {
        let of = |input| VenueInput::Charge(at, input);
        let is_blank = self.is_blank();
        let amount = match self.way {
            Way::Percent if is_blank => Amount::Percent(Rate::ZERO),
            Way::Flat if is_blank => Amount::Flat(Money::ZERO),
            Way::Percent => {
                Amount::Percent(reader.must_rate(of(ChargeInput::Percent), &self.percent))
            }
            Way::Flat => Amount::Flat(reader.must_money(of(ChargeInput::Flat), &self.flat)),
            Way::Brackets => Amount::Brackets(self.read_steps(at, reader)),
            Way::Slices => Amount::Slices(self.read_steps(at, reader)),
            Way::ByMonth => Amount::Tiers {
                by: Period::Month,
                steps: self.read_steps(at, reader),
            },
            Way::ByYear => Amount::Tiers {
                by: Period::Year,
                steps: self.read_steps(at, reader),
            },
        };
        let base = match self.of {
            Of::Price => Base::Price,
            Of::PriceAndPost => Base::PriceAndPost,
            Of::OrderTotal => Base::OrderTotal(
                reader
                    .rate(of(ChargeInput::Tax), &self.tax)
                    .unwrap_or_default(),
            ),
            Of::Charges => Base::Charges(positions(self.others)),
        };
        let refund = match self.back {
            Back::Kept => Refund::Kept,
            Back::All => Refund::Returned,
            Back::AllBut => {
                Refund::ReturnedLess(reader.must_money(of(ChargeInput::Less), &self.less))
            }
        };
        let mut regions = Vec::new();
        for region in &self.regions {
            if !region.trim().is_empty() {
                regions.push(region.trim().to_owned());
            }
        }
        Charge {
            label: self.label.trim().to_owned(),
            base,
            amount,
            scope: SCOPES[self.times as usize],
            least: reader.money(of(ChargeInput::Least), &self.least),
            most: reader.money(of(ChargeInput::Most), &self.most),
            when: When {
                from: reader.money(of(ChargeInput::From), &self.from),
                below: reader.money(of(ChargeInput::Below), &self.below),
                kinds: self.kinds.clone(),
                promoted: match self.promoted {
                    Promotion::Any => None,
                    Promotion::Only => Some(true),
                    Promotion::Without => Some(false),
                },
                regions,
            },
            owed_unsold: self.unsold,
            refund,
        }
    }

    fn read_steps(&self, at: usize, reader: &mut Reader<'_>) -> Vec<Step> {
        let mut steps = Vec::with_capacity(self.steps.len().min(MAX_STEPS));
        for (row, step) in self.steps.iter().enumerate() {
            let of = |input| VenueInput::Charge(at, ChargeInput::Step(row, input));
            steps.push(Step {
                from: reader
                    .money(of(StepInput::From), &step.from)
                    .unwrap_or_default(),
                percent: reader
                    .rate(of(StepInput::Percent), &step.percent)
                    .unwrap_or_default(),
                flat: reader
                    .money(of(StepInput::Flat), &step.flat)
                    .unwrap_or_default(),
            });
        }
        steps
    }
}
