//! What else the trader can ask of things.

use crate::day::Day;
use crate::id::{KindId, PhotoId, ThingId, WorkId};
use crate::measure::{ParcelSize, Weight};
use crate::money::Money;
use crate::worth::Sells;

/// Short facts about a thing, told apart by eye. What is empty is taken away.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// Its colour.
    pub colour: String,
    /// The size on its label.
    pub label: String,
    /// Who made it.
    pub maker: String,
    /// What is wrong with it.
    pub flaw: String,
    /// Of how many pieces it is, when of more than one.
    pub pieces: Option<u16>,
}

/// What a thing is, and how it is sent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Facts {
    /// What kind of thing it is.
    pub kind: Option<KindId>,
    /// Its own weight, when not its kind's.
    pub weight: Option<Weight>,
    /// Its own size as it is packed, when not its kind's.
    pub size: Option<ParcelSize>,
    /// What posting it costs.
    pub postage: Option<Money>,
    /// What packing it costs.
    pub packing: Option<Money>,
}

/// One thing that the trader asks of things.
#[derive(Clone, Debug, PartialEq)]
pub enum ThingCommand {
    /// Fixes a thing's share of its lot, or frees it again.
    FixShare {
        /// Which.
        thing: ThingId,
        /// Its share; `None` frees it.
        share: Option<Money>,
    },
    /// Keeps a thing for the trader's own use, or gives it back to the sale.
    KeepForMyself {
        /// Which.
        thing: ThingId,
        /// Whether it is kept.
        kept: bool,
    },
    /// Gives a thing back to its seller: it goes, and its lot cost so much less.
    ReturnToSeller {
        /// Which.
        thing: ThingId,
        /// What the seller paid back.
        got_back: Money,
    },
    /// Says the marks of a thing.
    Mark {
        /// Which.
        thing: ThingId,
        /// All its marks.
        marks: Marks,
    },
    /// Says the same of several things; what is not said stays.
    EditMany {
        /// Which; at least one.
        things: Vec<ThingId>,
        /// What kind they are.
        kind: Option<KindId>,
        /// What each sells for, likely. A low or high price beyond it goes.
        likely: Option<Money>,
    },
    /// Says what a thing is and how it is sent; what is `None` is taken away.
    SetFacts {
        /// Which.
        thing: ThingId,
        /// All its facts.
        facts: Facts,
    },
    /// Says what a thing sells for; `None` takes its prices away. What was judged stays as it was.
    SetSells {
        /// Which.
        thing: ThingId,
        /// Low, likely, high.
        sells: Option<Sells>,
    },
    /// Adds work that was put into things: one bill, shared evenly.
    AddWork {
        /// What was done; not empty.
        name: String,
        /// What it cost.
        cost: Money,
        /// When.
        day: Day,
        /// Which things; at least one.
        things: Vec<ThingId>,
    },
    /// Takes work away.
    RemoveWork(WorkId),
    /// Adds a picture of a thing.
    AddPhoto {
        /// Which.
        thing: ThingId,
        /// The SHA-256 of its bytes, in lower-case hexadecimal digits.
        blob: String,
    },
    /// Takes a picture away.
    RemovePhoto(PhotoId),
}
