//! The form of a rate card: texts as typed, and its tables as rows of cells, read into a card or into complaints beside their
//! cells.

mod beside;
mod edit;
mod fill;
mod json;
mod paste;
mod read;
mod service;
mod start;
mod tried;

pub use paste::{pasted, take_word};
pub use tried::{Told, TriedParcel, told};

use super::form::Form;
use crate::measure::WeightUnit;
use serde_json::Value;

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CardForm {
    /// What the trader calls the card.
    pub name: String,
    /// A few weight steps only, to begin with.
    pub rough: bool,
    /// How likely each zone is, in percent; all empty: not known.
    pub mix: Vec<String>,
    /// The services.
    pub services: Vec<ServiceForm>,
}

/// One service as typed. Rows of a sheet may be of different lengths while they are typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ServiceForm {
    /// The unit of weights that are typed without one.
    pub unit: WeightUnit,
    /// Texts of one line, by [`ServiceText`].
    pub texts: [String; ServiceText::COUNT],
    /// Whether the actual weight is rounded to the nearest step, and not up.
    pub round_nearest: bool,
    /// Whether the volumetric weight is.
    pub bulk_nearest: bool,
    /// The prices: in the first row the zones behind an empty cell, in each other one a weight and its prices.
    pub table: Vec<Vec<String>>,
    /// Containers at a flat price: name, most weight, prices.
    pub flat: Vec<Vec<String>>,
    /// Surcharges: which measure, by [`MEASURES`]; over how much; the amount.
    pub extra: Vec<Vec<String>>,
    /// A table from a spreadsheet that isn't taken yet.
    pub pasted: String,
    /// The table that a pasted one took the place of.
    pub before: Vec<Vec<String>>,
}

/// What a surcharge goes by: the name in its first cell, and what it is called.
pub const MEASURES: [(&str, &str); 3] = [
    ("longest", "Longest side"),
    ("around", "Length and girth"),
    ("volume", "Volume"),
];

/// A text of a service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ServiceText {
    /// Its name.
    Name,
    /// The most weight.
    Heaviest,
    /// The longest side.
    Longest,
    /// Length and girth.
    Around,
    /// The three sides together.
    Sum,
    /// The step that the actual weight is rounded to.
    Round,
    /// The volumetric divisor.
    Divisor,
    /// The step of the volumetric weight.
    BulkStep,
    /// The volume it starts at.
    BulkOver,
}

impl ServiceText {
    /// How many there are.
    pub const COUNT: usize = 9;
}

/// A sheet of a service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheet {
    /// Zones and weight steps.
    Table,
    /// Containers at a flat price.
    Flat,
    /// Surcharges.
    Extra,
}

/// A place of the form. Services, rows and columns are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardInput {
    /// The card's name.
    Name,
    /// A zone's share.
    Mix(usize),
    /// The shares together.
    Shares,
    /// A text of a service.
    Text(usize, ServiceText),
    /// A cell: service, sheet, row, column.
    Cell(usize, Sheet, usize, usize),
    /// A sheet as a whole.
    Sheet(usize, Sheet),
    /// The card as a whole.
    Whole,
}

impl Default for ServiceForm {
    fn default() -> Self {
        Self {
            unit: WeightUnit::Ounce,
            texts: Default::default(),
            round_nearest: false,
            bulk_nearest: false,
            table: Vec::new(),
            flat: Vec::new(),
            extra: Vec::new(),
            pasted: String::new(),
            before: Vec::new(),
        }
    }
}

impl ServiceForm {
    /// One of its texts.
    pub fn text(&self, text: ServiceText) -> &str {
        &self.texts[text as usize]
    }

    /// One of its sheets.
    pub fn sheet(&self, sheet: Sheet) -> &[Vec<String>] {
        match sheet {
            Sheet::Table => &self.table,
            Sheet::Flat => &self.flat,
            Sheet::Extra => &self.extra,
        }
    }

    pub(super) fn sheet_mut(&mut self, sheet: Sheet) -> &mut Vec<Vec<String>> {
        match sheet {
            Sheet::Table => &mut self.table,
            Sheet::Flat => &mut self.flat,
            Sheet::Extra => &mut self.extra,
        }
    }

    /// The zones as typed.
    pub fn zones(&self) -> &[String] {
        self.table
            .first()
            .map_or(&[], |head| head.get(1..).unwrap_or(&[]))
    }
}

impl CardForm {
    /// The text at a place; empty where there is none.
    pub fn at(&self, input: CardInput) -> &str {
        self.text(input).map_or("", String::as_str)
    }
}

impl Form for CardForm {
    type Input = CardInput;

    fn text(&self, input: CardInput) -> Option<&String> {
        match input {
            CardInput::Name => Some(&self.name),
            CardInput::Mix(zone) => self.mix.get(zone),
            CardInput::Text(at, text) => self
                .services
                .get(at)
                .map(|service| &service.texts[text as usize]),
            CardInput::Cell(at, sheet, row, column) => self
                .services
                .get(at)
                .and_then(|service| service.sheet(sheet).get(row)?.get(column)),
            CardInput::Shares | CardInput::Sheet(..) | CardInput::Whole => None,
        }
    }

    /// A cell that isn't there yet is made; a service or a row is not.
    fn text_mut(&mut self, input: CardInput) -> Option<&mut String> {
        match input {
            CardInput::Name => Some(&mut self.name),
            CardInput::Mix(zone) => Some(cell(&mut self.mix, zone)),
            CardInput::Text(at, text) => {
                let service = self.services.get_mut(at)?;
                Some(&mut service.texts[text as usize])
            }
            CardInput::Cell(at, sheet, row, column) => {
                let service = self.services.get_mut(at)?;
                Some(cell(service.sheet_mut(sheet).get_mut(row)?, column))
            }
            CardInput::Shares | CardInput::Sheet(..) | CardInput::Whole => None,
        }
    }

    fn to_json(&self) -> Value {
        self.written()
    }

    fn from_json(value: &Value) -> Option<Self> {
        Self::read_back(value)
    }
}

fn cell(row: &mut Vec<String>, column: usize) -> &mut String {
    while row.len() <= column {
        row.push(String::new());
    }
    &mut row[column]
}

#[cfg(test)]
#[path = "tests"]
mod tests {
    use super::*;

    mod northmail;
    mod typing;
}
