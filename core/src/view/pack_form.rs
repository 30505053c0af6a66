//! The form of a container or of a kind: both have a name, a weight and three sides. Texts as typed, read into one of the two or into
//! complaints beside their fields.

use super::complaint::{Complaint, optional};
use super::measures::{Units, bare, sides_of, typed, typed_size};
use crate::book::{KindSetup, KnownKind};
use crate::id::VenueId;
use crate::json::{self, Object, read_form};
use crate::measure::{Direction, Length, LengthUnit, MeasureError, ParcelSize, Weight, WeightUnit};
use crate::money::{Currency, Money, parse, plain};
use crate::packing::{Container, Fit, Form, Fragility, NODES, Piece, fit};
use crate::postage::LONGEST_NAME;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PackInput {
    /// Its name.
    Name,
    /// Its weight.
    Weight,
    /// Its three sides together.
    Size,
    /// One of them.
    Side(usize),
    /// What one costs.
    Cost,
}

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct PackForm {
    /// Name.
    pub name: String,
    /// Whether numbers alone are grams and centimetres, and not ounces and inches.
    pub metric: bool,
    /// What the container weighs empty, or what one thing of the kind weighs.
    pub weight: String,
    /// The three sides: of the container's inside, or of the thing as it is packed.
    pub sides: [String; 3],
    /// What a container costs; empty for nothing.
    pub cost: String,
    /// Whether a container is a carton, and not a mailer.
    pub carton: bool,
    /// Whether things of the kind fold and press.
    pub soft: bool,
    /// How easily they break.
    pub fragility: Fragility,
    /// The venue that they are judged on, when not the usual one.
    pub venue: Option<VenueId>,
}

read_form!(PackForm: name metric weight sides cost carton soft fragility venue);

/// What is wrong, by field.
pub type PackFaults = Vec<Complaint<PackInput>>;

/// The text of a field, by a reference of either sort.
macro_rules! reach {
    ($form:expr, $input:expr, $get:ident, $($by:tt)+) => {
        match $input {
            PackInput::Name => Some($($by)+ $form.name),
            PackInput::Weight => Some($($by)+ $form.weight),
            PackInput::Cost => Some($($by)+ $form.cost),
            PackInput::Side(side) => $form.sides.$get(side),
            PackInput::Size => None,
        }
    };
}

impl super::Form for PackForm {
    type Input = PackInput;

    fn text(&self, input: PackInput) -> Option<&String> {
        reach!(self, input, get, &)
    }

    fn text_mut(&mut self, input: PackInput) -> Option<&mut String> {
        reach!(self, input, get_mut, &mut)
    }

    fn to_json(&self) -> Value {
        json::value(self)
    }

    fn from_json(value: &Value) -> Option<Self> {
        // Earlier versions put its name around it.
        json::of(value.get("pack").unwrap_or(value))
    }
}

impl PackForm {
    fn measured(name: &str, weight: Weight, size: ParcelSize) -> Self {
        let metric = weight.unit().small() == WeightUnit::Gram;
        let units = Units::small(metric);
        Self {
            name: name.to_owned(),
            metric,
            weight: bare(&weight.to_string(), units.weight),
            sides: sides_of(size, units.length),
            ..Self::default()
        }
    }

    /// The form of a container.
    pub fn of_container(container: &Container, currency: Currency) -> Self {
        let Container {
            name,
            tare,
            cost,
            inside,
            form,
        } = container;
        Self {
            cost: if cost.is_zero() {
                String::new()
            } else {
                plain(*cost, currency)
            },
            carton: *form == Form::Carton,
            ..Self::measured(name, *tare, *inside)
        }
    }

    /// The form of a kind.
    pub fn of_kind(kind: &KnownKind) -> Self {
        let piece = kind.piece;
        Self {
            soft: piece.soft,
            fragility: piece.fragility,
            venue: kind.venue,
            ..Self::measured(&kind.name, piece.weight, piece.size)
        }
    }

    /// The units of numbers alone.
    pub fn units(&self) -> Units {
        Units::small(self.metric)
    }

    /// Measures in grams and centimetres from now on, or in ounces and inches. What is there and can be read is the same in the other
    /// units: weights to the nearest gram or tenth of an ounce, sides exactly or a ten-thousandth more.
    pub fn measure_in(&mut self, metric: bool) {
        let (from, to) = (self.units(), Units::small(metric));
        self.metric = metric;
        let (weight, fineness, length) = if metric {
            (WeightUnit::Gram, 10_000, LengthUnit::Centimetre)
        } else {
            (WeightUnit::Ounce, 1_000, LengthUnit::Inch)
        };
        if let Ok(read) = typed::<WeightUnit>(&self.weight, from.weight)
            && let Ok(same) = Weight::from_ticks(read.ticks(), weight, fineness, Direction::Nearest)
        {
            self.weight = bare(&same.to_string(), to.weight);
        }
        for side in &mut self.sides {
            if let Ok(read) = typed::<LengthUnit>(side, from.length)
                && let Ok(same) = Length::from_ticks(read.ticks(), length)
            {
                *side = bare(&same.to_string(), to.length);
            }
        }
    }

    /// What both have, with what is wrong put into `faults`.
    fn read(&self, faults: &mut PackFaults) -> Option<(String, Weight, ParcelSize)> {
        let units = self.units();
        let mut fault = |field, sentence: String| faults.push(Complaint { field, sentence });
        let name = self.name.trim();
        if name.is_empty() {
            fault(PackInput::Name, "Give it a name.".to_owned());
        } else if name.chars().count() > LONGEST_NAME {
            let sentence = format!("Use at most {LONGEST_NAME} characters.");
            fault(PackInput::Name, sentence);
        }
        let weight = typed(&self.weight, units.weight);
        let weight =
            weight.map_err(|error| fault(PackInput::Weight, MeasureError::to_string(&error)));
        let size = typed_size(&self.sides, units.length);
        let size = size.map_err(|error| fault(PackInput::Size, MeasureError::to_string(&error)));
        Some((name.to_owned(), weight.ok()?, size.ok()?))
    }

    /// Reads a container.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn container(&self, currency: Currency) -> Result<Container, PackFaults> {
        let mut faults = Vec::new();
        let read = self.read(&mut faults);
        let cost = optional(&self.cost, |text| parse(text, currency));
        let cost = cost.unwrap_or_else(|error| {
            let (field, sentence) = (PackInput::Cost, error.to_string());
            faults.push(Complaint { field, sentence });
            None
        });
        match read {
            Some((name, tare, inside)) if faults.is_empty() => Ok(Container {
                name,
                tare,
                cost: cost.unwrap_or(Money::ZERO),
                inside,
                form: if self.carton {
                    Form::Carton
                } else {
                    Form::Mailer
                },
            }),
            _ => Err(faults),
        }
    }

    /// Reads a kind.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn kind(&self) -> Result<KindSetup, PackFaults> {
        let mut faults = Vec::new();
        match self.read(&mut faults) {
            Some((name, weight, size)) if faults.is_empty() => Ok(KindSetup {
                name,
                piece: Piece {
                    size,
                    weight,
                    soft: self.soft,
                    fragility: self.fragility,
                },
                venue: self.venue,
            }),
            _ => Err(faults),
        }
    }
}

/// The names of the containers that one thing goes into, in their order.
pub fn goes_in(piece: Piece, containers: &[Container]) -> Vec<String> {
    let mut names = Vec::new();
    for container in containers {
        if fit(&[piece], container, NODES).fit == Fit::Fits {
            names.push(container.name.clone());
        }
    }
    names
}

#[cfg(test)]
#[path = "pack_form/tests.rs"]
mod tests;
