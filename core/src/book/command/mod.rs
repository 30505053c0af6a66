//! What the trader can ask of the book.

mod lot;
mod setup;
mod thing;
mod trip;

pub use lot::LotCommand;
pub use setup::{Bought, KindSetup, LeftBehind, Purchase, VenueSetup};
pub use thing::{Facts, Marks, ThingCommand};
pub use trip::{StopSetup, TripCommand, TripSetup};

use super::joining::Joining;
use crate::appraise::HouseRules;
use crate::change::{Fields, GONE, Key, RecordKey};
use crate::id::{BookId, CardId, ContainerId, DeviceCode, KindId, ThingId, VenueId};
use crate::measure::System;
use crate::money::Currency;
use crate::packing::Container;
use crate::postage::RateCard;
use crate::stamp::At;
use crate::worth::Allowances;
use serde_json::Value;
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
    /// Makes one book of two that were used, where these settings hold. Names this device where it has no name yet.
    Join {
        /// The book that stays, and its settings.
        joining: Joining,
        /// What this device is called.
        device: String,
    },
    /// Settles a dispute.
    Settle {
        /// Which record.
        record: RecordKey,
        /// Which field.
        field: String,
        /// The change that is chosen, one of the [parties](crate::book::State::parties).
        choice: Key,
        /// What it says; of `gone`, that it is there when it is another edit.
        value: Value,
    },
    /// Gives fields of a record values that they had before.
    GoBack {
        /// Which record.
        record: RecordKey,
        /// The fields and their earlier values.
        set: Fields,
    },
    /// Makes one of several records of one device.
    OneDevice(DeviceCode),
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
    /// Something about trips, stops and the purse.
    Trip(TripCommand),
    /// Something about a lot.
    Lot(LotCommand),
    /// Something else about things.
    Thing(ThingCommand),
}

impl Command {
    /// Puts back what was taken out.
    #[must_use]
    pub fn put_back(record: RecordKey) -> Self {
        let mut set = Fields::new();
        set.insert(GONE.to_owned(), Value::Null);
        Self::GoBack { record, set }
    }
}

impl From<TripCommand> for Command {
    fn from(command: TripCommand) -> Self {
        Self::Trip(command)
    }
}

impl From<LotCommand> for Command {
    fn from(command: LotCommand) -> Self {
        Self::Lot(command)
    }
}

impl From<ThingCommand> for Command {
    fn from(command: ThingCommand) -> Self {
        Self::Thing(command)
    }
}

/// The most things of one lot.
pub const MOST_THINGS: usize = 200;

/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;

/// The longest note, in characters.
pub const LONGEST_NOTE: usize = 500;

/// The most things of one lot that are not sorted yet.
pub const MOST_UNSORTED: u16 = 999;
