//! Is a rate card fit to be saved?

use std::ops::RangeInclusive;

use crate::money::Money;

use super::card::{RateCard, Rounding, Service};

/// The longest name of a card, service, zone or container, in characters.
pub const LONGEST_NAME: usize = 40;
/// The most services on a card.
pub const MAX_SERVICES: usize = 12;
/// The most zones of a service.
pub const MAX_ZONES: usize = 20;
/// The most steps of a service.
pub const MAX_STEPS: usize = 200;
/// The most surcharges, and the most containers at a flat price, of a service.
const MAX_EXTRAS: usize = 20;
/// How many steps a rough card has.
pub const ROUGH_STEPS: RangeInclusive<usize> = 4..=6;
/// What the shares of a mix sum to: ten-thousandths.
pub const WHOLE_MIX: u64 = 10_000;

/// What is wrong with a rate card.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardError {
    /// A name that is empty or too long.
    #[error(
        "Give every card, service, zone and container a name of at most {LONGEST_NAME} characters."
    )]
    Name,
    /// No service, or too many.
    #[error("A rate card has 1 to {MAX_SERVICES} services.")]
    Services,
    /// No zone, or too many.
    #[error("{service} needs 1 to {MAX_ZONES} zones.")]
    Zones {
        /// The service's name.
        service: String,
    },
    /// Neither steps nor flat prices, or too many.
    #[error("{service} needs 1 to {MAX_STEPS} weight steps.")]
    Steps {
        /// The service's name.
        service: String,
    },
    /// A step that is not heavier than the one before.
    #[error("{service}, step {step}: each step must be heavier than the one before.")]
    NotHeavier {
        /// The service's name.
        service: String,
        /// Which step, from 1.
        step: usize,
    },
    /// Not one price for each zone.
    #[error("{service}: give one price for each zone, or leave it empty where there is none.")]
    Prices {
        /// The service's name.
        service: String,
    },
    /// A price below nothing, or over what may be typed.
    #[error("{service}: a price is below nothing, or more than one amount may be.")]
    Amount {
        /// The service's name.
        service: String,
    },
    /// A divisor or a rounding step of nothing.
    #[error("{service}: the divisor and the rounding step must be more than nothing.")]
    Nothing {
        /// The service's name.
        service: String,
    },
    /// A divisor by pounds and a step in grams, or the other way round.
    #[error("{service}: give the divisor and its rounding step in units of one system.")]
    TwoSystems {
        /// The service's name.
        service: String,
    },
    /// Shares that don't sum to the whole.
    #[error("The shares of the zones must sum to 100 percent.")]
    Mix,
    /// Another number of zones than the mix has.
    #[error("{service} has {zones} zones, and the mix has {shares}.")]
    MixZones {
        /// The service's name.
        service: String,
        /// How many zones it has.
        zones: usize,
        /// How many shares the mix has.
        shares: usize,
    },
    /// A rough card of other than four to six steps.
    #[error("A rough card has 4 to 6 weight steps.")]
    RoughSteps,
}

impl RateCard {
    /// Is it fit to be saved?
    ///
    /// # Errors
    /// The first fault found, with the sentence to show.
    pub fn check(&self) -> Result<(), CardError> {
        name(&self.name)?;
        if !(1..=MAX_SERVICES).contains(&self.services.len()) {
            return Err(CardError::Services);
        }
        let sum: u64 = self.mix.iter().copied().map(u64::from).sum();
        if !self.mix.is_empty() && sum != WHOLE_MIX {
            return Err(CardError::Mix);
        }
        for service in &self.services {
            service.check()?;
            let (zones, shares) = (service.zones.len(), self.mix.len());
            if zones > 1 && shares > 0 && zones != shares {
                return Err(CardError::MixZones {
                    service: service.name.clone(),
                    zones,
                    shares,
                });
            }
        }
        Ok(())
    }
}

impl Service {
    fn check(&self) -> Result<(), CardError> {
        let service = || self.name.clone();
        name(&self.name)?;
        if !(1..=MAX_ZONES).contains(&self.zones.len()) {
            return Err(CardError::Zones { service: service() });
        }
        for zone in &self.zones {
            name(zone)?;
        }
        let is_empty = self.steps.is_empty() && self.flat.is_empty();
        let most = self.surcharges.len().max(self.flat.len());
        if is_empty || self.steps.len() > MAX_STEPS || most > MAX_EXTRAS {
            return Err(CardError::Steps { service: service() });
        }
        let mut before = 0;
        for (at, step) in self.steps.iter().enumerate() {
            if step.up_to.ticks() <= before {
                let (service, step) = (service(), at + 1);
                return Err(CardError::NotHeavier { service, step });
            }
            before = step.up_to.ticks();
            self.check_prices(&step.prices)?;
        }
        for flat in &self.flat {
            name(&flat.container)?;
            self.check_prices(&flat.prices)?;
        }
        if self.surcharges.iter().any(|extra| !is_typed(extra.amount)) {
            return Err(CardError::Amount { service: service() });
        }
        let is_nothing = |rounding: Rounding| rounding.step.ticks() == 0;
        let bulk = self.volumetric;
        if self.rounding.is_some_and(is_nothing)
            || bulk.is_some_and(|bulk| bulk.per.ticks() == 0 || is_nothing(bulk.rounding))
        {
            return Err(CardError::Nothing { service: service() });
        }
        if bulk.is_some_and(|bulk| !bulk.is_of_one_system()) {
            return Err(CardError::TwoSystems { service: service() });
        }
        Ok(())
    }

    fn check_prices(&self, prices: &[Option<Money>]) -> Result<(), CardError> {
        let service = || self.name.clone();
        if prices.len() != self.zones.len() {
            return Err(CardError::Prices { service: service() });
        }
        if prices.iter().flatten().any(|price| !is_typed(*price)) {
            return Err(CardError::Amount { service: service() });
        }
        Ok(())
    }
}

fn is_typed(amount: Money) -> bool {
    !amount.is_negative() && amount <= Money::TYPED_MAX
}

fn name(text: &str) -> Result<(), CardError> {
    if text.trim().is_empty() || text.chars().count() > LONGEST_NAME {
        return Err(CardError::Name);
    }
    Ok(())
}
