//! Hints on a quote: how near the parcel is to a step of the table.

use crate::measure::{Direction, Weight, WeightUnit};
use crate::money::Money;

use super::billable::{Billing, greatest};
use super::card::Service;

/// What a little less or more weight would do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hint {
    /// "0.3 oz under the next step": so much more and it costs more, or isn't taken at all.
    Under {
        /// How much may still be added, rounded down.
        room: Weight,
        /// How much more it would then cost; `None` when it wouldn't be taken.
        more: Option<Money>,
    },
    /// "0.3 oz less and it costs 1.00 less".
    Over {
        /// How much has to come off, rounded up.
        by: Weight,
        /// How much less it then costs.
        saves: Money,
    },
}

/// What is near enough to a step to be said: a twentieth of the step's weight.
const NEAR: u128 = 20;

/// A tenth of an ounce, or a gram: in ten-thousandths of the unit.
const fn fineness(unit: WeightUnit) -> u64 {
    match unit {
        WeightUnit::Ounce | WeightUnit::Pound => 1_000,
        WeightUnit::Gram | WeightUnit::Kilogram => 10_000,
    }
}

/// The hint for a parcel, given the price at any step.
pub(super) fn hint(
    service: &Service,
    billing: &Billing,
    weight: Weight,
    price: &dyn Fn(usize) -> Option<Money>,
) -> Option<Hint> {
    if billing.by_volume {
        return None;
    }
    let unit = service.unit.small();
    let shown = |ticks, direction| Weight::from_ticks(ticks, unit, fineness(unit), direction).ok();
    let here = price(billing.step)?;
    let near = |step: usize| service.steps[step].up_to.ticks() / NEAR;
    let by_bulk = service.place(billing.bulk)?;
    if let Some(before) = billing.step.checked_sub(1) {
        let most = greatest(service, before);
        let by = weight.ticks().saturating_sub(most);
        let is_near = (1..=near(before)).contains(&by) && most > 0;
        // Where the table is finer than the rounding, so little less skips steps; and it helps only down to what the volume counts as.
        let cheaper = service.place(service.rounded(most))?.max(by_bulk);
        if is_near
            && cheaper < billing.step
            && let Some(saves) = price(cheaper).map(|cheaper| here.minus(cheaper))
            && saves > Money::ZERO
        {
            let by = shown(by, Direction::Up)?;
            return Some(Hint::Over { by, saves });
        }
    }
    let table = greatest(service, billing.step);
    let heaviest = service.limits.heaviest.map(Weight::ticks);
    let heaviest = heaviest.filter(|heaviest| *heaviest <= table);
    let room = heaviest.unwrap_or(table).saturating_sub(weight.ticks());
    let over = service.place(service.rounded(table.saturating_add(1)));
    let more = match heaviest {
        Some(_) => None,
        None => over.and_then(price).map(|dearer| dearer.minus(here)),
    };
    if room > near(billing.step) || more.is_some_and(|more| more <= Money::ZERO) {
        return None;
    }
    // Down to the finest that is shown: a whole number of it rounds to itself.
    let finest = shown(1, Direction::Up)?.ticks();
    let room = shown((room / finest) * finest, Direction::Up)?;
    Some(Hint::Under { room, more })
}
