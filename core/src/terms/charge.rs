//! One rule of the terms: what it is taken of, how much it is, when it holds, and whether it comes back.

use serde::{Serialize, Serializer};

use super::{Amount, When};
use crate::money::{Money, Rate};

/// The longest label of a charge or a group, in characters.
pub const MAX_LABEL: usize = 40;

/// One rule of the terms. In files, what stands at its default is left out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Charge {
    /// What the venue calls it.
    pub label: String,
    /// What a percentage is taken of, and what the steps of an amount are measured on. A flat amount has no need of it.
    pub base: Base,
    /// How much it is.
    pub amount: Amount,
    /// How often it is charged.
    #[serde(skip_serializing_if = "Scope::is_thing")]
    pub scope: Scope,
    /// It is never less than this, where it holds at all.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least: Option<Money>,
    /// It is never more than this.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most: Option<Money>,
    /// When it holds.
    #[serde(skip_serializing_if = "When::is_always")]
    pub when: When,
    /// Is it owed though nothing sells, like a charge for listing?
    #[serde(skip_serializing_if = "is_false")]
    pub owed_unsold: bool,
    /// Does it come back when a sale is cancelled or returned?
    #[serde(skip_serializing_if = "Refund::is_kept")]
    pub refund: Refund,
}

/// How often a charge is made. On a sale of one thing alone all but [`Scope::Month`] come to the same: once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Scope {
    /// For each thing sold.
    #[default]
    Thing,
    /// Once for an order, whatever is in it; spread over its things by price.
    Order,
    /// Once for a parcel.
    Parcel,
    /// Once for a listing.
    Listing,
    /// Each month, sale or not. It is an overhead and in no sale's cut.
    Month,
}

/// What a percentage is taken of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Base {
    /// The thing's own price.
    #[default]
    Price,
    /// The price and the postage that the buyer pays.
    PriceAndPost,
    /// The price, the postage that the buyer pays, and the tax on both: the sum known with the sale or, where none is,
    /// this rate of price and postage, which isn't rounded before the charge is.
    OrderTotal(Rate),
    /// The sum of other charges, as rounded, for tax on fees. All of them come earlier. Where every charge of a group is
    /// named, what the group's least or most makes of them is meant.
    Charges(Positions),
}

/// Places of charges in their schedule. In files: the places counted from 1, as in `[1,2]`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Positions(u16);

/// Does a charge come back when a sale is cancelled or returned?
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Refund {
    /// The venue keeps it.
    #[default]
    Kept,
    /// All of it comes back.
    Returned,
    /// It comes back less this much; nothing comes back of a charge that isn't over it.
    ReturnedLess(Money),
}

impl Charge {
    /// A charge on every thing sold, with no limits and no conditions, which the venue keeps.
    pub fn new(label: &str, base: Base, amount: Amount) -> Self {
        Self {
            label: label.to_owned(),
            base,
            amount,
            scope: Scope::Thing,
            least: None,
            most: None,
            when: When::default(),
            owed_unsold: false,
            refund: Refund::Kept,
        }
    }

    /// A percentage of a base.
    pub fn percent(label: &str, rate: Rate, base: Base) -> Self {
        Self::new(label, base, Amount::Percent(rate))
    }

    /// A flat amount on every sale.
    pub fn flat(label: &str, amount: Money) -> Self {
        Self::new(label, Base::Price, Amount::Flat(amount))
    }
}

impl Positions {
    /// The most places that can be named: the first sixteen.
    pub const SPAN: usize = 16;

    /// The places given, counted from 1; `None` when one is 0 or beyond [`Positions::SPAN`].
    pub fn of(places: &[usize]) -> Option<Self> {
        let mut bits = 0;
        for place in places {
            if !(1..=Self::SPAN).contains(place) {
                return None;
            }
            bits |= 1 << (place - 1);
        }
        Some(Self(bits))
    }

    /// Is the charge at this index, counted from 0, among them?
    pub const fn has(self, index: usize) -> bool {
        index < Self::SPAN && self.0 >> index & 1 == 1
    }

    /// No place at all?
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Are all of these among the first so many charges?
    pub const fn are_within(self, count: usize) -> bool {
        count >= Self::SPAN || self.0 >> count == 0
    }

    /// Are all of the others among these?
    pub const fn cover(self, others: Self) -> bool {
        others.0 & !self.0 == 0
    }

    /// Is any of the others among these?
    pub const fn meet(self, others: Self) -> bool {
        others.0 & self.0 != 0
    }
}

impl Serialize for Positions {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_seq((0..Self::SPAN).filter(|at| self.has(*at)).map(|at| at + 1))
    }
}

impl Scope {
    /// The default, which is left out of files. Serde asks by reference.
    #[allow(clippy::trivially_copy_pass_by_ref)]
    fn is_thing(&self) -> bool {
        *self == Self::Thing
    }
}

impl Refund {
    /// The default, which is left out of files. Serde asks by reference.
    #[allow(clippy::trivially_copy_pass_by_ref)]
    fn is_kept(&self) -> bool {
        *self == Self::Kept
    }
}

/// Serde asks by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_false(said: &bool) -> bool {
    !said
}
