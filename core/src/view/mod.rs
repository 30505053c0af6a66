//! What each screen shows: one plain struct for each, from the book and what is being typed. Typed values, not laid-out text.

mod alike;
mod attention;
mod brought;
mod card_form;
mod clock;
mod complaint;
mod decide;
mod disputes;
mod draft;
#[cfg(test)]
mod every_kind;
mod form;
mod haul;
mod history;
mod judged;
mod keys;
#[cfg(test)]
mod kit;
mod lot_form;
mod lot_words;
mod measures;
mod named;
mod own_facts;
mod pack_form;
mod parts;
mod pile;
mod pocket;
mod rules_form;
mod saves;
mod trips;
mod values;
mod venue_form;
mod what;

pub use alike::Alike;
pub use attention::{Attention, Cure, attention, differs};
pub use brought::{Effect, Move, Weighed, brought};
pub use card_form::{CardForm, CardInput, MEASURES, ServiceForm, ServiceText, Sheet};
pub use card_form::{Told, TriedParcel, pasted, take_word, told};
pub use clock::minutes_of;
pub use complaint::Complaint;
pub use decide::{DecideView, Posted, Sending, Unasked, VenueCard, as_bought, decide, left_behind};
pub use decide::{purchase, sent_again, unasked, with_own};
pub use disputes::{Choice, Dispute, Spoken, dispute};
pub use draft::{DecideDraft, Field, Press, half_key};
pub use form::{Faults, Form};
pub use haul::{DayGroups, Group, HaulRow, HaulSums, HaulView, Here, LotGroup, LotRow};
pub use haul::{PassedRow, StopHead, TripHead, haul, here, one_lot};
pub use history::{Earlier, Saying, history_of};
pub use judged::{JudgedLately, judged_lately};
pub use lot_form::{COUNTS, LotForm, NotTyped};
pub use lot_words::lot_words;
pub use measures::Units;
pub use named::{named, nameless};
pub use own_facts::{read_size, read_weight, size_text, weight_text};
pub use pack_form::{PackForm, PackInput, goes_in};
pub use pile::{Pile, PileRow, PileView, Piled, UpTo, paid_for_all, pile};
pub use pocket::{Pocket, pocket};
pub use rules_form::{RulesForm, RulesInput};
pub use saves::{Done, briefly, describe};
pub use trips::{CashRow, StopRow, TripRow, TripView, trip, trips};
pub use venue_form::{
    Back, BandForm, ChargeForm, ChargeInput, Dates, GroupForm, GroupInput, Marks, Of, Payers,
    PostForm, PostInput, Posts, Promotion, RegionForm, Shape, StepForm, StepInput, Times, Tried,
    Trying, UsualForm, UsualInput, VenueForm, VenueInput, Way, dates, is_marked, keeps_of_twenty,
    marked, setup_of,
};
pub use what::{Before, KindChoice, before, kinds, part_of_hour, typed_amount};
