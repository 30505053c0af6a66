//! What commands are given: venues, kinds, purchases and things passed by, as their forms give them.

use super::super::expected::Expected;
use crate::id::{KindId, VenueId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::measure::{ParcelSize, Weight};
use crate::money::Money;
use crate::packing::Piece;
use crate::postage::Arrangement;
use crate::terms::{Schedule, Usual};
use crate::worth::Sells;

/// A venue as its form gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct VenueSetup {
    /// Its name; not empty.
    pub name: String,
    /// Who pays the postage.
    pub arrangement: Arrangement,
    /// Postage of a usual parcel, where it was said.
    pub postage: Option<Money>,
    /// Packing of a usual parcel, where it was said.
    pub packing: Option<Money>,
    /// Its charges.
    pub schedule: Schedule,
    /// How things usually sell there.
    pub usual: Usual,
}

/// A purchase: things bought for one price.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// What was handed over; 0 for a free find.
    pub paid: Money,
    /// What had to be paid on top: buyer's premium.
    pub extras: Money,
    /// The things, in the order in which they were weighed up; at least one.
    pub things: Vec<Bought>,
    /// How the price is shared over them.
    pub method: Method,
    /// How it was paid for.
    pub by: Paying,
}

/// One thing of a purchase.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bought {
    /// The thing's name; may be empty, and given later.
    pub name: String,
    /// What kind of thing it is.
    pub kind: Option<KindId>,
    /// Its own weight.
    pub weight: Option<Weight>,
    /// Its own size, as it is packed.
    pub size: Option<ParcelSize>,
    /// What it sells for.
    pub sells: Option<Sells>,
    /// Its postage.
    pub postage: Money,
    /// Its packing.
    pub packing: Money,
    /// What the work would cost that it needs.
    pub needs: Option<Money>,
    /// The verdict at the table.
    pub expected: Option<Expected>,
}

impl Purchase {
    /// A single thing: a lot of one.
    #[must_use]
    pub fn of_one(paid: Money, thing: Bought) -> Self {
        Self {
            paid,
            extras: Money::ZERO,
            things: vec![thing],
            method: Method::Evenly,
            by: Paying::Cash,
        }
    }
}

/// A kind as its form gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct KindSetup {
    /// Its name; not empty.
    pub name: String,
    /// What one weighs, how large it is, whether it folds, and how easily it breaks.
    pub piece: Piece,
    /// The venue that things of it are judged on, when not the usual one.
    pub venue: Option<VenueId>,
}

/// A thing that was weighed up and left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeftBehind {
    /// Its name; may be empty.
    pub name: String,
    /// What kind of thing it is.
    pub kind: Option<KindId>,
    /// What the seller wanted.
    pub ask: Option<Money>,
    /// What it would sell for.
    pub sells: Option<Sells>,
    /// The verdict.
    pub expected: Option<Expected>,
}
