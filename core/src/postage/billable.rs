//! Billable weight: the greater of the actual and the volumetric weight, rounded up to the card's step.

use crate::measure::{Direction, ParcelSize, Weight, whole_steps};

use super::card::{Rounding, Service, Volumetric};
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
    /// How many of its rounding steps a parcel's volume counts as.
    fn steps(self, size: ParcelSize) -> u128 {
        if self.over.is_some_and(|over| !size.is_over(over)) {
            return 0;
        }
        // Volume by divisor gives the step's unit, and that by the step the count: one fraction, rounded once. Sides of ten
        // metres and the greatest divisor and step still fit: 10^31 and 2 × 10^35 of 3 × 10^38.
        let step = u128::from(self.rounding.step.ten_thousandths());
        let volume = size.volume() * 10_000;
        whole_steps(volume, self.per.ticks() * step, self.rounding.direction)
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
    let actual = service
        .rounding
        .map_or(weight.ticks(), |rounding| rounding.round(weight.ticks()));
    let bulk = match (service.volumetric, size) {
        (Some(rule), Some(size)) => rule.steps(size).saturating_mul(rule.rounding.step.ticks()),
        _ => 0,
    };
    let place = |ticks: u128| {
        service
            .steps
            .iter()
            .position(|step| ticks <= step.up_to.ticks())
    };
    let most = last.up_to;
    let by_weight = place(actual).ok_or(Refused::TooHeavy { most })?;
    let by_bulk = place(bulk).ok_or(Refused::TooBulky { most })?;
    let step = by_weight.max(by_bulk);
    Ok(Billing {
        step,
        weight: service.steps[step].up_to,
        bulk,
        by_volume: by_bulk > by_weight,
    })
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
