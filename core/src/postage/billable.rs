//! Billable weight: the greater of the actual and the volumetric weight, rounded up to the card's step.

use crate::measure::{Direction, ParcelSize, Volume, VolumeUnit, Weight, WeightUnit, whole_steps};

use super::card::{Rounding, Service, Step, Volumetric};
use super::refused::Refused;

/// Where a parcel stands in a service's table.
pub(super) struct Billing {
    /// The step, by its place.
    pub(super) step: usize,
    /// Its weight.
    pub(super) weight: Weight,
    /// The volumetric weight in ticks; nothing when it doesn't apply.
    pub(super) bulk: u128,
    /// Whether the volume decided.
    pub(super) by_volume: bool,
}

impl Rounding {
    /// A weight in ticks, rounded.
    fn round(self, ticks: u128) -> u128 {
        let step = self.step.ticks();
        whole_steps(ticks, step, self.direction).saturating_mul(step)
    }
}

impl Volumetric {
    /// The unit that a divisor is of when none was written beside it, by the unit of the step. Once it was always the step's own, while
    /// divisors are published by the kilogram and the pound: a number that only makes sense of those is read so. Published divisors are about
    /// 5000 cm³ each kilogram or 140 to 170 in³ each pound; what is nearer to that by the small unit is taken by it, by the middle of the two
    /// on a scale of ratios: 158 cm³ each gram, 680 cm³ each ounce.
    pub fn unit_meant(per: Volume, step: WeightUnit) -> WeightUnit {
        let middle = match step {
            WeightUnit::Gram => 158,
            WeightUnit::Ounce => 680,
            heavy => return heavy,
        };
        if per.ticks() < Volume::whole(middle, VolumeUnit::CubicCentimetre).ticks() {
            step
        } else {
            step.heavy()
        }
    }

    /// Are the divisor and the step of one system of units?
    pub(super) fn is_of_one_system(&self) -> bool {
        self.each.small() == self.rounding.step.unit().small()
    }

    /// How many of its rounding steps a parcel's volume counts as.
    fn steps(self, size: ParcelSize) -> u128 {
        if self.over.is_some_and(|over| !size.is_over(over)) {
            return 0;
        }
        // Volume by divisor gives so many of the divisor's unit, and that by the step the count: one fraction, rounded once. Both
        // units of weight are of one system: see `shares`.
        let step = self.rounding.step;
        let (each, unit) = shares(self.each, step.unit());
        let volume = (size.volume() * 10_000).saturating_mul(each);
        let per = (self.per.ticks() * u128::from(step.ten_thousandths())).saturating_mul(unit);
        whole_steps(volume, per, self.rounding.direction)
    }

    /// The volumetric weight of a parcel: nothing where it doesn't apply, `None` beyond any weight.
    pub fn weight(self, size: ParcelSize) -> Option<Weight> {
        let step = self.rounding.step;
        let count = self
            .steps(size)
            .saturating_mul(u128::from(step.ten_thousandths()));
        Weight::from_ten_thousandths(count, step.unit()).ok()
    }
}

/// How two units of weight of one system stand to each other, in whole numbers: 1000 and 1 for a kilogram and a gram, 16 and 1 for a pound
/// and an ounce. The sums above then fit 128 bits: sides of ten metres make 10^34 parts of volume, the greatest divisor and step
/// 2 × 10^38.
fn shares(one: WeightUnit, other: WeightUnit) -> (u128, u128) {
    let [one, other] = [one, other].map(|unit| Weight::whole(1, unit).ticks());
    (one.div_ceil(other), other.div_ceil(one))
}

/// The weight that a service bills: the greater of the actual and the volumetric weight, rounded up to the card's step. An
/// unknown size has no volumetric weight.
///
/// # Errors
/// [`Refused::TooHeavy`], [`Refused::TooBulky`] or [`Refused::NoSteps`].
pub fn billable(
    weight: Weight,
    size: Option<ParcelSize>,
    service: &Service,
) -> Result<Weight, Refused> {
    billing(weight, size, service).map(|billing| billing.weight)
}

pub(super) fn billing(
    weight: Weight,
    size: Option<ParcelSize>,
    service: &Service,
) -> Result<Billing, Refused> {
    let last = service.steps.last().ok_or(Refused::NoSteps)?;
    if let Some(most) = service.limits.heaviest
        && weight.ticks() > most.ticks()
    {
        return Err(Refused::TooHeavy { most });
    }
    let actual = service.rounded(weight.ticks());
    let bulk = match (service.volumetric, size) {
        (Some(rule), Some(size)) => rule.steps(size).saturating_mul(rule.rounding.step.ticks()),
        _ => 0,
    };
    let most = last.up_to;
    let by_weight = service.place(actual).ok_or(Refused::TooHeavy { most })?;
    let by_bulk = service.place(bulk).ok_or(Refused::TooBulky { most })?;
    let step = by_weight.max(by_bulk);
    Ok(Billing {
        step,
        weight: service.steps[step].up_to,
        bulk,
        by_volume: by_bulk > by_weight,
    })
}

impl Service {
    /// The step that a billable weight in ticks comes under, by its place.
    pub(super) fn place(&self, ticks: u128) -> Option<usize> {
        let is_under = |step: &Step| ticks <= step.up_to.ticks();
        self.steps.iter().position(is_under)
    }

    /// An actual weight in ticks as it is looked up.
    pub(super) fn rounded(&self, ticks: u128) -> u128 {
        self.rounding
            .map_or(ticks, |rounding| rounding.round(ticks))
    }
}

/// The greatest actual weight, in ticks, that is still billed at a step.
pub(super) fn greatest(service: &Service, step: usize) -> u128 {
    let up_to = service.steps[step].up_to.ticks();
    let Some(rounding) = service.rounding else {
        return up_to;
    };
    let size = rounding.step.ticks().max(1);
    let whole = (up_to / size) * size;
    match rounding.direction {
        Direction::Up => whole,
        // From half a step on it would be the next.
        Direction::Nearest => whole + size.div_ceil(2) - 1,
    }
}
