//! What the trader can ask of the book.

use super::expected::Expected;
use crate::appraise::HouseRules;
use crate::id::{BookId, CardId, ContainerId, KindId, ThingId, VenueId};
use crate::lot::Method;
use crate::measure::{ParcelSize, System, Weight};
use crate::money::{Currency, Money};
use crate::packing::{Container, Piece};
use crate::postage::{Arrangement, RateCard};
use crate::stamp::At;
use crate::terms::Schedule;
use crate::worth::{Allowances, Sells};
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

/// A purchase: things bought for one price.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// What was handed over; 0 for a free find.
    pub paid: Money,
    /// The things, in the order in which they were weighed up; at least one.
    pub things: Vec<Bought>,
    /// How the price is shared over them.
    pub method: Method,
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
    /// The verdict at the table.
    pub expected: Option<Expected>,
}

impl Purchase {
    /// A single thing: a lot of one.
    #[must_use]
    pub fn of_one(paid: Money, thing: Bought) -> Self {
        Self {
            paid,
            things: vec![thing],
            method: Method::Evenly,
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
    /// Names this device.
    NameDevice(String),
    /// Makes one book of several that a file brought together: this one stays. Names this device where it has no name yet.
    OneBook {
        /// The book that stays.
        stays: BookId,
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
    /// Types and shows measures in these units from now on.
    UseUnits(System),
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
    /// Adds a rate card, or writes a new version of one. The same card again says that it was checked today.
    SaveCard {
        /// Which; `None` adds one.
        id: Option<CardId>,
        /// Its table.
        card: RateCard,
    },
    /// Posts by this card from now on.
    UseCard(CardId),
    /// Takes a rate card away.
    RemoveCard(CardId),
    /// Adds a container, or changes one.
    SaveContainer {
        /// Which; `None` adds one.
        id: Option<ContainerId>,
        /// How it is to be.
        container: Container,
    },
    /// Takes a container away.
    RemoveContainer(ContainerId),
    /// Adds a kind, or changes one; a starter kind is changed under its own id.
    SaveKind {
        /// Which; `None` adds one.
        id: Option<KindId>,
        /// How it is to be.
        kind: KindSetup,
    },
    /// Takes a kind away.
    RemoveKind(KindId),
    /// Logs a purchase.
    Buy(Purchase),
    /// Keeps a thing that was passed by.
    PassBy(LeftBehind),
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

/// The most things of one lot.
pub const MOST_THINGS: usize = 200;

/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;
