//! What the trader can ask of the book, and why the book may refuse.

use super::expected::Expected;
use crate::appraise::{HouseRules, RulesError};
use crate::id::{ThingId, VenueId};
use crate::money::{Currency, Money};
use crate::postage::Arrangement;
use crate::stamp::At;
use crate::terms::{Schedule, TermsError};
use crate::worth::{Allowances, Sells, WorthError};
use uuid::Uuid;

/// What comes from outside into a decision: the time that the clock shows, and chance for new ids.
pub struct Context<'a> {
    /// Now.
    pub at: At,
    /// Ten fresh bytes of chance at each call.
    pub chance: &'a mut dyn FnMut() -> [u8; 10],
}

impl Context<'_> {
    /// A new id.
    pub fn fresh(&mut self) -> Uuid {
        crate::id::uuid_v7(self.at.0, &(self.chance)())
    }

    /// A new id that sorts after an older one, whatever the clock says.
    pub fn fresh_after(&mut self, older: Uuid) -> Uuid {
        // The first 48 bits of version 7 are Unix ms.
        let older_ms = u64::try_from(older.as_u128() >> 80).unwrap_or(0);
        crate::id::uuid_v7(self.at.0.max(older_ms + 1), &(self.chance)())
    }
}

/// A venue as its form gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct VenueSetup {
    /// Its name; not empty.
    pub name: String,
    /// Who pays the postage.
    pub arrangement: Arrangement,
    /// Postage of a usual parcel.
    pub postage: Money,
    /// Packing of a usual parcel.
    pub packing: Money,
    /// Its charges.
    pub schedule: Schedule,
}

/// A purchase of one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// What was handed over; 0 for a free find.
    pub paid: Money,
    /// The thing's name; may be empty, and given later.
    pub name: String,
    /// What it sells for.
    pub sells: Option<Sells>,
    /// Its postage.
    pub postage: Money,
    /// Its packing.
    pub packing: Money,
    /// The verdict at the table.
    pub expected: Option<Expected>,
}

/// One thing that the trader asks of the book.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Begins the book.
    Begin {
        /// The currency of all its amounts.
        currency: Currency,
        /// What this device is called.
        device: String,
    },
    /// Sets the house rules and allowances.
    SetRules {
        /// The limits.
        rules: HouseRules,
        /// What is set aside.
        allowances: Allowances,
    },
    /// Adds a venue, or changes one.
    SaveVenue {
        /// Which; `None` adds one.
        id: Option<VenueId>,
        /// How it is to be.
        setup: VenueSetup,
    },
    /// Judges things on this venue from now on.
    UseVenue(VenueId),
    /// Takes a venue away.
    RemoveVenue(VenueId),
    /// Logs a purchase of one thing.
    Buy(Purchase),
    /// Names a thing.
    Rename {
        /// Which.
        thing: ThingId,
        /// Its new name.
        name: String,
    },
    /// Takes a thing out of the haul, with its lot when nothing else is in it.
    TakeOut(ThingId),
}

/// Why the book will not do what it was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// Begun twice.
    #[error("This book has begun already. Its currency stays.")]
    AlreadyBegun,
    /// Not begun.
    #[error("Choose the book's currency first.")]
    NotBegun,
    /// A name is missing.
    #[error("Give it a name.")]
    NoName,
    /// Longer than anybody writes.
    #[error("The name is too long: {limit} characters at most.")]
    NameTooLong {
        /// The most.
        limit: usize,
    },
    /// The name is another venue's.
    #[error("Another venue has this name already.")]
    NameTaken,
    /// An amount under 0.
    #[error("An amount here cannot be under 0.")]
    Negative,
    /// An amount over [`Money::TYPED_MAX`].
    #[error("That is more than one amount may be.")]
    TooLarge,
    /// House rules that cannot hold.
    #[error(transparent)]
    Rules(#[from] RulesError),
    /// Allowances that cannot hold.
    #[error(transparent)]
    Allowances(#[from] WorthError),
    /// Charges that cannot hold.
    #[error(transparent)]
    Terms(#[from] TermsError),
    /// The venue is not there.
    #[error("This venue is no longer in the book.")]
    NoVenue,
    /// The thing is not there.
    #[error("This thing is no longer in the book.")]
    NoThing,
    /// Nothing would change.
    #[error("Nothing has changed.")]
    NoChange,
    /// The device's clock shows a time beyond the calendar.
    #[error("This device's clock is far off. Set it, then save again.")]
    ClockOff,
    /// The start of a book.
    #[error("The book's beginning cannot be undone.")]
    BeginningStays,
    /// Another tab saved between the look and the save.
    #[error("Another tab has just saved. Look again, then try once more.")]
    MovedOn,
    /// Undo has nothing to give back.
    #[error("Nothing to undo here: later changes stand on it.")]
    NothingToUndo,
}

/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;
