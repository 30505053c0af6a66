//! What each screen shows: one plain struct for each, from the book and what is being typed. Typed values, not laid-out text.

mod complaint;
mod decide;
mod draft;
mod haul;
mod history;
mod keys;
#[cfg(test)]
mod kit;
mod parts;
mod pile;
mod pocket;
mod rules_form;
mod saves;
mod venue_form;

pub use complaint::Complaint;
pub use decide::{DecideView, Posted, VenueCard, as_bought, decide, left_behind, purchase};
pub use draft::{DecideDraft, Field, Press, half_key};
pub use haul::{HaulRow, HaulView, haul};
pub use history::{Said, history};
pub use pile::{Pile, PileRow, PileView, Piled, UpTo, paid_for_all, pile};
pub use pocket::{Pocket, pocket};
pub use rules_form::{RulesForm, RulesInput};
pub use saves::{Done, describe};
pub use venue_form::{VenueForm, VenueInput, keeps_of_twenty};
