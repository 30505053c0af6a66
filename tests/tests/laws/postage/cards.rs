//! Cards of whole numbers, for the laws: what the real ones are built from, and a model that prices a parcel by the words.

use haulwren_core::measure::{Direction, Length, LengthUnit, ParcelSize, Weight, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::postage::{
    Limits, Over, RateCard, Rounding, Service, Step, Surcharge, Volumetric,
};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use rust_decimal::Decimal;

/// Zones of every card here.
pub const ZONES: usize = 3;

/// A card in tenths: of an ounce, an inch, a pound.
#[derive(Clone, Debug)]
pub struct Facts {
    /// How much heavier each step is than the one before, in tenths of an ounce, and its prices.
    pub steps: Vec<(i128, [Option<i64>; ZONES])>,
    pub mix: [u32; ZONES],
    /// Tenths of an ounce; to the nearest?
    pub rounding: Option<(i128, bool)>,
    /// Cubic inches a pound; tenths of a pound; to the nearest?; cubic inches it starts at.
    pub bulk: Option<(i128, i128, bool, Option<i128>)>,
    /// Whether the step of bulk is in tenths of an ounce: the divisor stays of a pound.
    pub bulk_in_ounces: bool,
    pub longest: Option<i128>,
    pub around: Option<i128>,
    pub heaviest: Option<i128>,
    pub extra: Option<(i128, i64)>,
}

/// A parcel in tenths of an ounce and of an inch.
pub type Box3 = (i128, [i128; 3]);

pub fn weight(tenths: i128, unit: WeightUnit) -> Weight {
    Weight::new(Decimal::from_i128_with_scale(tenths, 1), unit).unwrap()
}

pub fn length(tenths: i128) -> Length {
    Length::new(Decimal::from_i128_with_scale(tenths, 1), LengthUnit::Inch).unwrap()
}

pub fn size([a, b, c]: [i128; 3]) -> ParcelSize {
    ParcelSize::new(length(a), length(b), length(c)).unwrap()
}

const fn direction(nearest: bool) -> Direction {
    if nearest {
        Direction::Nearest
    } else {
        Direction::Up
    }
}

impl Facts {
    pub fn card(&self) -> RateCard {
        let mut service = Service::new("Parcel", WeightUnit::Ounce);
        service.zones = ["near", "middle", "far"].map(str::to_owned).to_vec();
        let mut up_to = 0;
        for (more, prices) in &self.steps {
            up_to += more;
            service.steps.push(Step {
                up_to: weight(up_to, WeightUnit::Ounce),
                prices: prices.map(|price| price.map(Money::new)).to_vec(),
            });
        }
        service.rounding = self.rounding.map(|(step, nearest)| Rounding {
            step: weight(step, WeightUnit::Ounce),
            direction: direction(nearest),
        });
        service.volumetric = self.bulk.map(|(per, step, nearest, over)| Volumetric {
            per: format!("{per} in3").parse().unwrap(),
            each: WeightUnit::Pound,
            rounding: Rounding {
                step: weight(
                    step,
                    if self.bulk_in_ounces {
                        WeightUnit::Ounce
                    } else {
                        WeightUnit::Pound
                    },
                ),
                direction: direction(nearest),
            },
            over: over.map(|over| format!("{over} in3").parse().unwrap()),
        });
        service.limits = Limits {
            longest: self.longest.map(length),
            length_and_girth: self.around.map(length),
            sum_of_sides: None,
            heaviest: self.heaviest.map(|most| weight(most, WeightUnit::Ounce)),
        };
        service
            .surcharges
            .extend(self.extra.map(|(over, amount)| Surcharge {
                over: Over::Longest(length(over)),
                amount: Money::new(amount),
            }));
        RateCard {
            name: "Northmail".to_owned(),
            rough: false,
            mix: self.mix.to_vec(),
            services: vec![service],
        }
    }

    /// The price of a parcel in a zone, or `None` where there is none.
    pub fn model(&self, (weight, [a, b, c]): Box3, zone: usize) -> Option<i64> {
        let longest = a.max(b).max(c);
        let around = longest + 2 * (a + b + c - longest);
        let volume = a * b * c;
        let is_in = |most: Option<i128>, size| most.is_none_or(|most| size <= most);
        if !is_in(self.longest, longest)
            || !is_in(self.around, around)
            || !is_in(self.heaviest, weight)
        {
            return None;
        }
        let scaled = |size: i128, step: i128, nearest: bool| {
            if nearest {
                (2 * size + step) / (2 * step)
            } else {
                (size + step - 1) / step
            }
        };
        let actual = self.rounding.map_or(weight, |(step, nearest)| {
            scaled(weight, step, nearest) * step
        });
        let by_bulk = match self.bulk {
            // A thousand cubic tenths are a cubic inch, ten tenths a pound, 16 tenths of an ounce a tenth of a pound.
            Some((per, step, nearest, over)) if over.is_none_or(|over| volume > over * 1000) => {
                if self.bulk_in_ounces {
                    scaled(volume * 160, 1000 * per * step, nearest) * step
                } else {
                    scaled(volume * 10, 1000 * per * step, nearest) * step * 16
                }
            }
            _ => 0,
        };
        let mut up_to = 0;
        for (more, prices) in &self.steps {
            up_to += more;
            if actual <= up_to && by_bulk <= up_to {
                let extra = self.extra.filter(|(over, _)| longest > *over);
                return prices[zone].map(|price| price + extra.map_or(0, |(_, amount)| amount));
            }
        }
        None
    }
}

/// Cards whose own prices never fall as weight grows; one in eight prices is not offered.
pub fn facts() -> impl Strategy<Value = Facts> {
    let more = option::weighted(0.875, 0_i64..300);
    let steps = vec((5_i128..400, [more.clone(), more.clone(), more]), 1..8).prop_map(|steps| {
        let mut prices = [300_i64; ZONES];
        let mut step = |(heavier, more): (i128, [Option<i64>; ZONES])| {
            let mut line = [None; ZONES];
            for zone in 0..ZONES {
                prices[zone] += more[zone].unwrap_or(0);
                line[zone] = more[zone].map(|_| prices[zone]);
            }
            (heavier, line)
        };
        steps.into_iter().map(&mut step).collect::<Vec<_>>()
    });
    let mix = (0_u32..=10_000, 0_u32..=10_000).prop_map(|(one, two)| {
        let (low, high) = (one.min(two), one.max(two));
        [low, high - low, 10_000 - high]
    });
    let bulk = (
        50_i128..400,
        1_i128..20,
        any::<bool>(),
        option::of(0_i128..2_000),
    );
    let limits = (
        option::of(20_i128..400),
        option::of(60_i128..900),
        option::of(10_i128..1_500),
    );
    let rounding = option::of((1_i128..40, any::<bool>()));
    let extra = option::of((20_i128..300, 0_i64..900));
    let bulk = (option::of(bulk), any::<bool>());
    (steps, mix, rounding, bulk, limits, extra).prop_map(
        |(steps, mix, rounding, (bulk, bulk_in_ounces), (longest, around, heaviest), extra)| {
            Facts {
                steps,
                mix,
                rounding,
                bulk,
                bulk_in_ounces,
                longest,
                around,
                heaviest,
                extra,
            }
        },
    )
}

pub fn boxes() -> impl Strategy<Value = Box3> {
    (0_i128..1_800, [1_i128..250, 1_i128..250, 1_i128..250])
}
