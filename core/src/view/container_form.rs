//! The form of a container: texts as typed, read into one or into complaints beside their fields.

use super::complaint::{Complaint, optional};
use super::measures::{Units, bare, sides_of, sides_text, with_unit};
use crate::json::{Object, read_form};
use crate::measure::{MeasureError, WeightUnit};
use crate::money::{Currency, Money, parse, plain};
use crate::packing::{Container, Form};
use crate::postage::LONGEST_NAME;
use serde::{Deserialize, Serialize};

/// A field of the forms of containers and kinds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PackInput {
    /// Its name.
    Name,
    /// Its weight.
    Weight,
    /// Its three sides.
    Size,
    /// What one costs.
    Cost,
}

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct ContainerForm {
    /// Name.
    pub name: String,
    /// Whether numbers alone are grams and centimetres, and not ounces and inches.
    pub metric: bool,
    /// Its own weight.
    pub weight: String,
    /// The three sides of its inside.
    pub sides: [String; 3],
    /// What one costs; empty for nothing.
    pub cost: String,
    /// Whether it is a carton, and not a mailer.
    pub carton: bool,
}

read_form!(ContainerForm: name metric weight sides cost carton);

/// A name, or what is wrong with it.
pub(super) fn named(typed: &str) -> Result<String, String> {
    let name = typed.trim();
    if name.is_empty() {
        Err("Give it a name.".to_owned())
    } else if name.chars().count() > LONGEST_NAME {
        Err(format!("Use at most {LONGEST_NAME} characters."))
    } else {
        Ok(name.to_owned())
    }
}

impl ContainerForm {
    /// The form of a container.
    pub fn of(container: &Container, currency: Currency) -> Self {
        let metric = container.tare.unit().small() == WeightUnit::Gram;
        let units = Units::small(metric);
        let cost = container.cost;
        Self {
            name: container.name.clone(),
            metric,
            weight: bare(container.tare.to_string(), units.weight),
            sides: sides_of(container.inside, units.length),
            cost: if cost.is_zero() {
                String::new()
            } else {
                plain(cost, currency)
            },
            carton: container.form == Form::Carton,
        }
    }

    /// Reads the form.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn read(&self, currency: Currency) -> Result<Container, Vec<Complaint<PackInput>>> {
        let units = Units::small(self.metric);
        let mut faults = Vec::new();
        let mut fault = |field, sentence: String| faults.push(Complaint { field, sentence });
        let name = named(&self.name).map_err(|error| fault(PackInput::Name, error));
        let tare = with_unit(&self.weight, units.weight).parse();
        let tare = tare.map_err(|error| fault(PackInput::Weight, MeasureError::to_string(&error)));
        let inside = sides_text(&self.sides, units.length).parse();
        let inside =
            inside.map_err(|error| fault(PackInput::Size, MeasureError::to_string(&error)));
        let cost = optional(&self.cost, |text| parse(text, currency));
        let cost = cost.map_err(|error| fault(PackInput::Cost, error.to_string()));
        match (name, tare, inside, cost) {
            (Ok(name), Ok(tare), Ok(inside), Ok(cost)) => Ok(Container {
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
}
