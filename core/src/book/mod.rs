//! The book: records and what they add up to, commands that `decide` turns into edits or refuses, undo.

mod checked;
mod command;
mod decide;
mod expected;
mod kinds;
mod read;
mod state;
mod table;
#[cfg(test)]
mod tests;
mod undo;

pub use command::{Command, Context, LONGEST_NAME, Purchase, Refusal, VenueSetup};
pub use expected::{Expected, Word};
pub use kinds::{Book, DECLARED, Device, Lot, Rules, Tables, Terms, Thing, Venue, rule};
pub use kinds::{BookEdit, DeviceEdit, LotEdit, RulesEdit, TermsEdit, ThingEdit, VenueEdit};
pub use state::{BadRecord, State, Touched};
pub use table::{Edits, Entry, Record, Table};
pub use undo::undo;
