//! What else the trader can ask of things.

use crate::day::Day;
use crate::id::{KindId, PhotoId, ThingId, WorkId};
use crate::money::Money;

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
