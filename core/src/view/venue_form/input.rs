//! The fields of the form by name: to find their texts, and to say what is wrong with them.

use super::VenueForm;
use crate::view::form::{Form, form_json};

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VenueInput {
    /// The venue's name.
    Name,
    /// Usual postage.
    Postage,
    /// Usual packing.
    Packing,
    /// A field of the charge at a place.
    Charge(usize, ChargeInput),
    /// A field of the limit at a place.
    Group(usize, GroupInput),
    /// A field of the postage arrangement.
    Post(PostInput),
    /// A field of how things usually sell.
    Usual(UsualInput),
    /// The charges as a whole.
    Terms,
}

/// A field of how things usually sell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UsualInput {
    /// What sells in a month.
    Monthly,
    /// The regions as a whole.
    Regions,
    /// The name of the region at a place.
    Region(usize),
    /// Its share.
    Share(usize),
}

/// A field of a charge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChargeInput {
    /// Its name.
    Label,
    /// Its percentage.
    Percent,
    /// Its flat sum.
    Flat,
    /// Its table as a whole.
    Table,
    /// A field of the table's row at a place.
    Step(usize, StepInput),
    /// The assumed tax.
    Tax,
    /// The other charges that it is taken of.
    Others,
    /// How often.
    Times,
    /// The least.
    Least,
    /// The most.
    Most,
    /// Prices from.
    From,
    /// Prices under.
    Below,
    /// The region at a place.
    Region(usize),
    /// What is kept when the rest comes back.
    Less,
}

/// A field of a table's row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepInput {
    /// Where it begins.
    From,
    /// Its percentage.
    Percent,
    /// Its flat sum.
    Flat,
}

/// A field of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupInput {
    /// Its name.
    Label,
    /// Its charges.
    Charges,
    /// The least.
    Least,
    /// The most.
    Most,
}

/// A field of the postage arrangement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PostInput {
    /// The stated sum.
    Stated,
    /// The label's flat price.
    Label,
    /// The weight bands as a whole.
    Bands,
    /// The weight of the band at a place.
    BandWeight(usize),
    /// The price of the band at a place.
    BandPrice(usize),
    /// The buyer's share.
    Share,
    /// The sum from which it is free.
    FreeFrom,
}

/// The text of a field, by a reference of either sort.
macro_rules! reach {
    ($form:expr, $input:expr, $get:ident, $($by:tt)+) => {
        match $input {
            VenueInput::Name => Some($($by)+ $form.name),
            VenueInput::Postage => Some($($by)+ $form.postage),
            VenueInput::Packing => Some($($by)+ $form.packing),
            VenueInput::Charge(at, input) => {
                let charge = $form.charges.$get(at)?;
                match input {
                    ChargeInput::Label => Some($($by)+ charge.label),
                    ChargeInput::Percent => Some($($by)+ charge.percent),
                    ChargeInput::Flat => Some($($by)+ charge.flat),
                    ChargeInput::Tax => Some($($by)+ charge.tax),
                    ChargeInput::Least => Some($($by)+ charge.least),
                    ChargeInput::Most => Some($($by)+ charge.most),
                    ChargeInput::From => Some($($by)+ charge.from),
                    ChargeInput::Below => Some($($by)+ charge.below),
                    ChargeInput::Less => Some($($by)+ charge.less),
                    ChargeInput::Region(row) => charge.regions.$get(row),
                    ChargeInput::Step(row, input) => {
                        let step = charge.steps.$get(row)?;
                        Some(match input {
                            StepInput::From => $($by)+ step.from,
                            StepInput::Percent => $($by)+ step.percent,
                            StepInput::Flat => $($by)+ step.flat,
                        })
                    }
                    ChargeInput::Table | ChargeInput::Others | ChargeInput::Times => None,
                }
            }
            VenueInput::Group(at, input) => {
                let group = $form.groups.$get(at)?;
                match input {
                    GroupInput::Label => Some($($by)+ group.label),
                    GroupInput::Least => Some($($by)+ group.least),
                    GroupInput::Most => Some($($by)+ group.most),
                    GroupInput::Charges => None,
                }
            }
            VenueInput::Post(input) => {
                let post = $($by)+ $form.post;
                match input {
                    PostInput::Stated => Some($($by)+ post.stated),
                    PostInput::Label => Some($($by)+ post.label),
                    PostInput::Share => Some($($by)+ post.share),
                    PostInput::FreeFrom => Some($($by)+ post.free_from),
                    PostInput::BandWeight(row) => Some($($by)+ post.bands.$get(row)?.up_to),
                    PostInput::BandPrice(row) => Some($($by)+ post.bands.$get(row)?.price),
                    PostInput::Bands => None,
                }
            }
            VenueInput::Usual(input) => {
                let usual = $($by)+ $form.usual;
                match input {
                    UsualInput::Monthly => Some($($by)+ usual.monthly),
                    UsualInput::Region(row) => Some($($by)+ usual.regions.$get(row)?.name),
                    UsualInput::Share(row) => Some($($by)+ usual.regions.$get(row)?.share),
                    UsualInput::Regions => None,
                }
            }
            VenueInput::Terms => None,
        }
    };
}

impl Form for VenueForm {
    type Input = VenueInput;

    fn text(&self, input: VenueInput) -> Option<&String> {
        reach!(self, input, get, &)
    }

    fn text_mut(&mut self, input: VenueInput) -> Option<&mut String> {
        reach!(self, input, get_mut, &mut)
    }

    form_json!();
}
