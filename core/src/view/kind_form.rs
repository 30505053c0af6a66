//! The form of a kind: texts as typed, read into a setup or into complaints beside their fields.

use super::complaint::Complaint;
use super::container_form::{PackInput, named};
use super::measures::{Units, bare, sides_of, sides_text, with_unit};
use crate::book::{KindSetup, KnownKind};
use crate::id::VenueId;
use crate::json::{Object, read_form};
use crate::measure::{MeasureError, WeightUnit};
use crate::packing::{Container, Fit, Fragility, NODES, Piece, fit};
use serde::{Deserialize, Serialize};

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct KindForm {
    /// Name.
    pub name: String,
    /// Whether numbers alone are grams and centimetres, and not ounces and inches.
    pub metric: bool,
    /// What one weighs.
    pub weight: String,
    /// Its three sides as it is packed.
    pub sides: [String; 3],
    /// Whether it folds and presses.
    pub soft: bool,
    /// How easily it breaks.
    pub fragility: Fragility,
    /// The venue that things of it are judged on, when not the usual one.
    pub venue: Option<VenueId>,
}

read_form!(KindForm: name metric weight sides soft fragility venue);

impl KindForm {
    /// The form of a kind.
    pub fn of(kind: &KnownKind) -> Self {
        let piece = kind.piece;
        let metric = piece.weight.unit().small() == WeightUnit::Gram;
        let units = Units::small(metric);
        Self {
            name: kind.name.clone(),
            metric,
            weight: bare(piece.weight.to_string(), units.weight),
            sides: sides_of(piece.size, units.length),
            soft: piece.soft,
            fragility: piece.fragility,
            venue: kind.venue,
        }
    }

    /// Reads the form.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn read(&self) -> Result<KindSetup, Vec<Complaint<PackInput>>> {
        let units = Units::small(self.metric);
        let mut faults = Vec::new();
        let mut fault = |field, sentence: String| faults.push(Complaint { field, sentence });
        let name = named(&self.name).map_err(|error| fault(PackInput::Name, error));
        let weight = with_unit(&self.weight, units.weight).parse();
        let weight =
            weight.map_err(|error| fault(PackInput::Weight, MeasureError::to_string(&error)));
        let size = sides_text(&self.sides, units.length).parse();
        let size = size.map_err(|error| fault(PackInput::Size, MeasureError::to_string(&error)));
        match (name, weight, size) {
            (Ok(name), Ok(weight), Ok(size)) => Ok(KindSetup {
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

/// The names of the containers that one thing goes into, as many as there are.
pub fn goes_in(piece: &Piece, containers: &[Container]) -> Vec<String> {
    let mut names = Vec::new();
    for container in containers {
        if fit(&[*piece], container, NODES).fit == Fit::Fits {
            names.push(container.name.clone());
        }
    }
    names
}
