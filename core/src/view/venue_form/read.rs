//! Reading the form: into a setup, or into what is wrong, field by field.

use super::VenueForm;
use super::input::{ChargeInput, GroupInput, VenueInput};
use super::marks::{marks, positions, without};
use crate::book::{LONGEST_NAME, VenueSetup};
use crate::money::{Currency, Money, MoneyError, Rate, parse};
use crate::terms::{Base, Schedule, TermsError};
use crate::view::complaint::{Complaint, optional};
use std::fmt::Display;

/// Reads texts, and keeps what is wrong with them.
pub(super) struct Reader<'a> {
    currency: Currency,
    complaints: &'a mut Vec<Complaint<VenueInput>>,
}

impl Reader<'_> {
    pub(super) fn complain(&mut self, field: VenueInput, error: &dyn Display) {
        let sentence = error.to_string();
        self.complaints.push(Complaint { field, sentence });
    }

    /// An amount; empty for none.
    pub(super) fn money(&mut self, field: VenueInput, text: &str) -> Option<Money> {
        let currency = self.currency;
        optional(text, |text| parse(text, currency)).unwrap_or_else(|error| {
            self.complain(field, &error);
            None
        })
    }

    /// An amount that has to be there.
    pub(super) fn must_money(&mut self, field: VenueInput, text: &str) -> Money {
        if text.trim().is_empty() {
            self.complain(field, &MoneyError::Empty);
        }
        self.money(field, text).unwrap_or_default()
    }

    /// A percentage; empty for none.
    pub(super) fn rate(&mut self, field: VenueInput, text: &str) -> Option<Rate> {
        optional(text, Rate::parse).unwrap_or_else(|error| {
            self.complain(field, &error);
            None
        })
    }

    /// A percentage that has to be there.
    pub(super) fn must_rate(&mut self, field: VenueInput, text: &str) -> Rate {
        if text.trim().is_empty() {
            self.complain(field, &MoneyError::Empty);
        }
        self.rate(field, text).unwrap_or_default()
    }
}

impl VenueForm {
    /// Reads the form.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn read(&self, currency: Currency) -> Result<VenueSetup, Vec<Complaint<VenueInput>>> {
        let mut complaints = Vec::new();
        let mut reader = Reader {
            currency,
            complaints: &mut complaints,
        };
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            reader.complain(VenueInput::Name, &"Give the venue a name.");
        } else if name.chars().count() > LONGEST_NAME {
            let sentence = format!("Use at most {LONGEST_NAME} characters.");
            reader.complain(VenueInput::Name, &sentence);
        }
        let arrangement = self.post.read(&mut reader);
        let (mut postage, mut packing) = (None, None);
        if arrangement.is_posted() {
            // Nothing is no postage that a parcel goes for: it stays unsaid.
            let typed = reader.money(VenueInput::Postage, &self.postage);
            postage = typed.filter(|postage| !postage.is_zero());
            packing = reader.money(VenueInput::Packing, &self.packing);
        }
        let usual = self.usual.read(&mut reader);
        let before = reader.complaints.len();
        let mut schedule = Schedule::default();
        for (at, charge) in self.charges.iter().enumerate() {
            schedule.charges.push(charge.read(at, &mut reader));
        }
        for (at, group) in self.groups.iter().enumerate() {
            schedule.groups.push(group.read(at, &mut reader));
        }
        // What couldn't be read stands as nothing: no more is to be said of the whole until it can.
        if reader.complaints.len() == before
            && let Err(fault) = schedule.check()
        {
            reader.complain(field_of(fault), &fault);
        }
        if !complaints.is_empty() {
            return Err(complaints);
        }
        self.drop_blanks(&mut schedule);
        Ok(VenueSetup {
            name,
            arrangement,
            postage,
            packing,
            schedule,
            usual,
        })
    }

    /// Takes out the plain charges into which nothing was typed, unless another charge or a limit names them.
    fn drop_blanks(&self, schedule: &mut Schedule) {
        for at in (0..self.charges.len()).rev() {
            let named = schedule.charges.iter().any(|other| match other.base {
                Base::Charges(named) => named.has(at),
                _ => false,
            });
            let limited = schedule.groups.iter().any(|group| group.charges.has(at));
            if self.charges[at].is_blank() && !named && !limited {
                schedule.charges.remove(at);
                let moved = |named| positions(without(marks(named), at));
                for charge in &mut schedule.charges {
                    if let Base::Charges(named) = &mut charge.base {
                        *named = moved(*named);
                    }
                }
                for group in &mut schedule.groups {
                    group.charges = moved(group.charges);
                }
            }
        }
    }
}

/// The field that a fault of the schedule belongs to.
fn field_of(fault: TermsError) -> VenueInput {
    use TermsError as Fault;
    let (position, input) = match fault {
        Fault::TooMany | Fault::TooManyGroups | Fault::TakesAll => return VenueInput::Terms,
        Fault::GroupLabel { group } => return VenueInput::Group(group - 1, GroupInput::Label),
        Fault::GroupOfNone { group }
        | Fault::GroupsOverlap { group }
        | Fault::GroupMixed { group } => {
            return VenueInput::Group(group - 1, GroupInput::Charges);
        }
        Fault::GroupLimits { group } => return VenueInput::Group(group - 1, GroupInput::Most),
        Fault::NoLabel { position } | Fault::LongLabel { position } => {
            (position, ChargeInput::Label)
        }
        Fault::NegativeFlat { position } | Fault::LargeFlat { position } => {
            (position, ChargeInput::Flat)
        }
        Fault::NoSteps { position }
        | Fault::TooManySteps { position }
        | Fault::StepsNotAscending { position }
        | Fault::TwoPeriods { position } => (position, ChargeInput::Table),
        Fault::LeastOverMost { position } => (position, ChargeInput::Most),
        Fault::NoPrice { position } => (position, ChargeInput::Below),
        Fault::BadRegion { position } | Fault::TooManyNamed { position } => {
            (position, ChargeInput::Region(0))
        }
        Fault::OfNothing { position }
        | Fault::OfLater { position }
        | Fault::MixedMonth { position } => (position, ChargeInput::Others),
        Fault::MonthOfSale { position } => (position, ChargeInput::Times),
    };
    VenueInput::Charge(position - 1, input)
}
