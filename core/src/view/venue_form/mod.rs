//! The form of a venue: texts as typed, read into a setup or into complaints beside their fields, and filled from a setup without
//! loss. It holds every schedule and every arrangement that a book takes.

mod charge;
mod choices;
mod edit;
mod fill;
mod input;
mod limit;
mod marks;
mod posting;
mod read;
mod shapes;
mod tried;
mod usual;

#[cfg(test)]
mod tests;

use crate::json::{Object, read_form};
use serde::{Deserialize, Serialize};

pub use charge::{ChargeForm, StepForm};
pub use choices::{Back, Of, Payers, Posts, Promotion, Times, Way};
pub use fill::{Dates, dates, setup_of};
pub use input::{ChargeInput, GroupInput, PostInput, StepInput, UsualInput, VenueInput};
pub use limit::GroupForm;
pub use marks::{Marks, is_marked, marked};
pub use posting::{BandForm, PostForm};
pub use shapes::Shape;
pub use tried::{Tried, Trying, keeps_of_twenty};
pub use usual::{RegionForm, UsualForm};

/// The form's texts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct VenueForm {
    /// Name.
    pub name: String,
    /// The charges, in their order. A new form has a share of the sale and a flat charge, both empty.
    pub charges: Vec<ChargeForm>,
    /// Limits on several charges.
    pub groups: Vec<GroupForm>,
    /// Who pays the postage.
    pub post: PostForm,
    /// Usual postage; empty where nobody said it.
    pub postage: String,
    /// Usual packing; empty where nobody said it.
    pub packing: String,
    /// How things usually sell there.
    pub usual: UsualForm,
}

read_form!(VenueForm: name charges groups post postage packing usual);

impl Default for VenueForm {
    fn default() -> Self {
        Self {
            name: String::new(),
            charges: vec![ChargeForm::share(), ChargeForm::flat_charge()],
            groups: Vec::new(),
            post: PostForm::default(),
            postage: String::new(),
            packing: String::new(),
            usual: UsualForm::default(),
        }
    }
}

impl VenueForm {
    /// Is it the plain case: a share of the price, or of price and postage, and a flat charge, of which either may be empty?
    #[must_use]
    pub fn is_plain(&self) -> bool {
        let [share, flat] = &self.charges[..] else {
            return false;
        };
        let plain_share = ChargeForm {
            of: share.of,
            percent: share.percent.clone(),
            ..ChargeForm::share()
        };
        let plain_flat = ChargeForm {
            flat: flat.flat.clone(),
            ..ChargeForm::flat_charge()
        };
        self.groups.is_empty()
            && matches!(share.of, Of::Price | Of::PriceAndPost)
            && *share == plain_share
            && *flat == plain_flat
    }
}
