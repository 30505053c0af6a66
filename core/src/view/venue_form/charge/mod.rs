//! One charge of the form: its texts and choices, read into a charge of the terms, and filled from one.

mod fill;
mod read;

use super::choices::{Back, Of, Promotion, Times, Way};
use super::marks::Marks;
use crate::id::KindId;
use crate::json::{Object, read_form};
use crate::terms::Scope;
use serde::{Deserialize, Serialize};

/// What the first of the plain charges is called.
const SHARE: &str = "Share of the sale";
/// What the second is called.
const FLAT: &str = "Flat charge";

/// The texts and choices of one charge. What a choice makes idle stays as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct ChargeForm {
    /// What the venue calls it.
    pub label: String,
    /// How much it is.
    pub way: Way,
    /// The percentage, where it is one.
    pub percent: String,
    /// The flat sum, where it is one.
    pub flat: String,
    /// The table, where there is one.
    pub steps: Vec<StepForm>,
    /// What it is taken of.
    pub of: Of,
    /// The tax that is assumed on an order's total, in percent; empty for none.
    pub tax: String,
    /// The other charges, where it is taken of some.
    pub others: Marks,
    /// How often.
    pub times: Times,
    /// Never less than this; empty for no such limit.
    pub least: String,
    /// Never more than this; empty for no such limit.
    pub most: String,
    /// At prices from here on; empty for any.
    pub from: String,
    /// At prices under this; empty for any.
    pub below: String,
    /// Only for these kinds; none for any.
    pub kinds: Vec<KindId>,
    /// Whether it hangs on a promotion.
    pub promoted: Promotion,
    /// Only for buyers of these regions; empty ones don't count.
    pub regions: Vec<String>,
    /// Owed though nothing sells.
    pub unsold: bool,
    /// Whether it comes back.
    pub back: Back,
    /// What is kept of it when the rest comes back.
    pub less: String,
}

read_form!(ChargeForm: label way percent flat steps of tax others times least most from below kinds promoted regions unsold back less);

/// A line of a table.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct StepForm {
    /// Where it begins; empty for nothing.
    pub from: String,
    /// Its percentage; empty for none.
    pub percent: String,
    /// Its flat sum; empty for none.
    pub flat: String,
}

read_form!(StepForm: from percent flat);

impl ChargeForm {
    /// A share of the sale, still empty.
    #[must_use]
    pub fn share() -> Self {
        Self {
            label: SHARE.to_owned(),
            ..Self::default()
        }
    }

    /// A flat charge, still empty.
    #[must_use]
    pub fn flat_charge() -> Self {
        Self {
            label: FLAT.to_owned(),
            way: Way::Flat,
            ..Self::default()
        }
    }

    /// Is it one of the plain charges, with nothing typed into it? Then it is no charge at all.
    pub(super) fn is_blank(&self) -> bool {
        let plain_share = Self {
            of: self.of,
            ..Self::share()
        };
        *self == plain_share || *self == Self::flat_charge()
    }

    /// Has it a table?
    #[must_use]
    pub const fn has_table(&self) -> bool {
        !matches!(self.way, Way::Percent | Way::Flat)
    }

    /// Does it differ from the common case: of each thing sold, without limits and conditions, and kept by the venue?
    #[must_use]
    pub fn has_conditions(&self) -> bool {
        let common = Self {
            label: self.label.clone(),
            way: self.way,
            percent: self.percent.clone(),
            flat: self.flat.clone(),
            steps: self.steps.clone(),
            of: self.of,
            tax: self.tax.clone(),
            others: self.others,
            ..Self::default()
        };
        *self != common
    }
}

/// The scopes of the terms in the order of [`Times::ALL`].
const SCOPES: [Scope; 5] = [
    Scope::Thing,
    Scope::Order,
    Scope::Parcel,
    Scope::Listing,
    Scope::Month,
];
