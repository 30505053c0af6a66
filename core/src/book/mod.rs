//! The book: records and what they add up to, commands that `decide` turns into edits or refuses, undo.

mod attention;
mod checked;
mod command;
mod costs;
mod decide;
mod declare;
mod disputes;
mod expected;
mod index;
mod joining;
mod kinds;
mod read;
mod read_postage;
mod read_trips;
mod refusal;
mod sale;
mod state;
mod table;
#[cfg(test)]
mod tests;
mod undo;

pub use attention::Concern;
pub use command::{Bought, Command, Context, KindSetup, LONGEST_NAME, LONGEST_NOTE, LeftBehind};
pub use command::{Facts, ThingCommand, TripCommand, TripSetup, VenueSetup};
pub use command::{LotCommand, MOST_THINGS, MOST_UNSORTED, Marks, Purchase, StopSetup};
pub use costs::{Reckoning, SharedLot, SharedWork};
pub use declare::{Declared, Field as DeclaredField, Group, KNOWN, Look, Reading};
pub use disputes::is_readable;
pub use expected::{Expected, Word};
pub use joining::Joining;
pub use kinds::Container as ContainerRecord;
pub use kinds::*;
pub use read_postage::KnownKind;
pub use refusal::Refusal;
pub use sale::{KeepNow, PostageShort, Sales};
pub use state::{BadRecord, State, Touched};
pub use table::{Edits, Entry, Record, Table};
pub use undo::undo;
