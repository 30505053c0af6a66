//! Rate cards: a carrier's services with their tables of prices, as the trader entered them.

use crate::measure::{Direction, Length, ParcelSize, Volume, Weight, WeightUnit};
use crate::money::Money;

use super::check::{CardError, ROUGH_STEPS};

/// A carrier's prices. In files an object; what this version doesn't know in it makes it unreadable: a card whose surcharge was
/// left out would be misread, which is worse. Its dates stand beside it in the book.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RateCard {
    /// What the trader calls it.
    pub name: String,
    /// A few weight steps only, typed to begin with: what rests on them is rough.
    pub rough: bool,
    /// How likely each zone is when the buyer is unknown, in ten-thousandths, in the order of the zones. Empty: not known.
    pub mix: Vec<u32>,
    /// The ways to post.
    pub services: Vec<Service>,
}

/// One way to post.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Service {
    /// Its name.
    pub name: String,
    /// The unit in which its weights are shown.
    pub unit: WeightUnit,
    /// Its zones, the near ones first; the last is the far zone. One zone alone stands for all.
    pub zones: Vec<String>,
    /// The table, lightest first.
    pub steps: Vec<Step>,
    /// What it takes at most.
    pub limits: Limits,
    /// How bulk is billed, when it is.
    pub volumetric: Option<Volumetric>,
    /// How the actual weight is rounded before it is looked up. Without: not at all.
    pub rounding: Option<Rounding>,
    /// What large parcels cost more.
    pub surcharges: Vec<Surcharge>,
    /// Containers that go at a price of their own, whatever they weigh.
    pub flat: Vec<FlatPrice>,
}

/// One line of the table: the price of a parcel up to a weight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The greatest billable weight at this price.
    pub up_to: Weight,
    /// The price in each zone; `None` where it isn't offered.
    pub prices: Vec<Option<Money>>,
}

/// What a service takes at most. Exactly the most is still taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Limits {
    /// The longest side.
    pub longest: Option<Length>,
    /// Length and girth: the longest side and twice the sum of the others.
    pub length_and_girth: Option<Length>,
    /// The three sides together.
    pub sum_of_sides: Option<Length>,
    /// The most weight, as the scale shows it. The table's last step limits it too.
    pub heaviest: Option<Weight>,
}

/// Bulk billed as weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Volumetric {
    /// The divisor: so much volume counts as one of the unit `each`.
    pub per: Volume,
    /// The unit of weight that the divisor is of: 166 in3 each pound, 5000 cm3 each kilogram.
    pub each: WeightUnit,
    /// How the volumetric weight is rounded.
    pub rounding: Rounding,
    /// Only parcels over this volume. Without: all.
    pub over: Option<Volume>,
}

/// Rounding to whole steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rounding {
    /// The step.
    pub step: Weight,
    /// Which way.
    pub direction: Direction,
}

/// What a parcel over some size costs more. Of those by one measure the greatest that applies counts; different measures add up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Surcharge {
    /// From where on.
    pub over: Over,
    /// How much.
    pub amount: Money,
}

/// A size that a parcel is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// The longest side.
    Longest(Length),
    /// Length and girth.
    LengthAndGirth(Length),
    /// The volume.
    Volume(Volume),
}

/// A container that goes at a price of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FlatPrice {
    /// The container's name.
    pub container: String,
    /// The price in each zone; `None` where it isn't offered.
    pub prices: Vec<Option<Money>>,
    /// The most weight.
    pub heaviest: Option<Weight>,
}

impl RateCard {
    /// A rough card: four to six weight steps with one price each, for a first look.
    ///
    /// # Errors
    /// [`CardError::RoughSteps`] for fewer or more steps, or what [`RateCard::check`] finds.
    pub fn rough(name: &str, steps: &[(Weight, Money)]) -> Result<Self, CardError> {
        if !ROUGH_STEPS.contains(&steps.len()) {
            return Err(CardError::RoughSteps);
        }
        let unit = steps
            .first()
            .map_or(WeightUnit::Ounce, |step| step.0.unit());
        let mut service = Service::new("Parcel", unit.small());
        service.zones.push("all".to_owned());
        for (up_to, price) in steps {
            service.steps.push(Step {
                up_to: *up_to,
                prices: vec![Some(*price)],
            });
        }
        let card = Self {
            name: name.to_owned(),
            rough: true,
            mix: Vec::new(),
            services: vec![service],
        };
        card.check().map(|()| card)
    }
}

impl Service {
    /// A service with a name and no prices yet.
    pub fn new(name: &str, unit: WeightUnit) -> Self {
        Self {
            name: name.to_owned(),
            unit,
            zones: Vec::new(),
            steps: Vec::new(),
            limits: Limits::default(),
            volumetric: None,
            rounding: None,
            surcharges: Vec::new(),
            flat: Vec::new(),
        }
    }

    /// Does any price or refusal depend on the parcel's size?
    pub fn goes_by_size(&self) -> bool {
        let Limits {
            longest,
            length_and_girth,
            sum_of_sides,
            heaviest: _,
        } = self.limits;
        longest.or(length_and_girth).or(sum_of_sides).is_some()
            || self.volumetric.is_some()
            || !self.surcharges.is_empty()
    }

    /// Where a zone of the card stands in this service's prices; one zone alone stands for all.
    pub(super) fn column(&self, zone: usize) -> Option<usize> {
        match self.zones.len() {
            1 => Some(0),
            zones => (zone < zones).then_some(zone),
        }
    }
}

impl Over {
    /// Is a parcel over it?
    pub fn holds(self, size: ParcelSize) -> bool {
        match self {
            Self::Longest(most) => size.longest() > most.ticks(),
            Self::LengthAndGirth(most) => size.length_and_girth() > most.ticks(),
            Self::Volume(most) => size.is_over(most),
        }
    }

    /// Which measure it goes by.
    pub(super) const fn measure(self) -> u8 {
        match self {
            Self::Longest(_) => 0,
            Self::LengthAndGirth(_) => 1,
            Self::Volume(_) => 2,
        }
    }

    /// How much of its measure.
    pub(super) fn ticks(self) -> u128 {
        match self {
            Self::Longest(most) | Self::LengthAndGirth(most) => u128::from(most.ticks()),
            Self::Volume(most) => most.ticks(),
        }
    }
}
