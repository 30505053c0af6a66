//! The form of a venue: texts as typed, read into a setup or into complaints beside their fields.

use super::complaint::{Complaint, optional};
use crate::book::{LONGEST_NAME, State, Venue, VenueSetup};
use crate::day::Day;
use crate::id::VenueId;
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, Rate, parse, plain};
use crate::postage::Arrangement;
use crate::terms::{Amount, Base, Charge, Sale, Schedule, settle};
use serde::{Deserialize, Serialize};

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum VenueInput {
    /// The venue's name.
    Name,
    /// Its percentage.
    Percent,
    /// Its flat charge.
    Flat,
    /// Usual postage.
    Postage,
    /// Usual packing.
    Packing,
}

/// The form's texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct VenueForm {
    /// Name.
    pub name: String,
    /// Percent taken; empty for none.
    pub percent: String,
    /// What the percentage is taken of.
    pub base: Base,
    /// Flat charge; empty for none.
    pub flat: String,
    /// Who pays the postage.
    pub arrangement: Arrangement,
    /// Usual postage; empty for none.
    pub postage: String,
    /// Usual packing; empty for none.
    pub packing: String,
}

read_form!(VenueForm: name percent base flat arrangement postage packing);

impl VenueForm {
    /// The form of a venue as it stands.
    #[must_use]
    pub fn of(state: &State, id: VenueId, today: Day) -> Option<Self> {
        let currency = state.currency()?;
        let Venue {
            name,
            arrangement,
            postage,
            packing,
            ..
        } = state.venue(id)?.clone();
        let amount = |money: Option<Money>| {
            money
                .filter(|money| !money.is_zero())
                .map(|money| plain(money, currency))
                .unwrap_or_default()
        };
        let mut form = Self {
            name: name.unwrap_or_default(),
            arrangement: arrangement.unwrap_or_default(),
            postage: amount(postage),
            packing: amount(packing),
            ..Self::default()
        };
        let schedule = state
            .terms_on(id, today)
            .and_then(|(_, terms)| terms.schedule.clone())
            .unwrap_or_default();
        for charge in schedule.charges {
            match charge.amount {
                Amount::Percent(rate) => {
                    (form.percent, form.base) = (rate.to_string(), charge.base);
                }
                Amount::Flat(flat) => form.flat = amount(Some(flat)),
                Amount::Brackets(_) | Amount::Slices(_) | Amount::Tiers { .. } => {}
            }
        }
        Some(form)
    }

    /// Reads the form.
    ///
    /// # Errors
    /// Every field that cannot be used, with a sentence.
    pub fn read(&self, currency: Currency) -> Result<VenueSetup, Vec<Complaint<VenueInput>>> {
        let mut complaints = Vec::new();
        let mut complain = |field, sentence: String| complaints.push(Complaint { field, sentence });
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            complain(VenueInput::Name, "Give the venue a name.".to_owned());
        } else if name.chars().count() > LONGEST_NAME {
            complain(
                VenueInput::Name,
                format!("Use at most {LONGEST_NAME} characters."),
            );
        }
        let mut amount = |field, text: &str| match optional(text, |text| parse(text, currency)) {
            Ok(amount) => amount.unwrap_or_default(),
            Err(error) => {
                complain(field, error.to_string());
                Money::ZERO
            }
        };
        let flat = amount(VenueInput::Flat, &self.flat);
        let (postage, packing) = if self.arrangement.is_posted() {
            (
                amount(VenueInput::Postage, &self.postage),
                amount(VenueInput::Packing, &self.packing),
            )
        } else {
            (Money::ZERO, Money::ZERO)
        };
        let rate = optional(&self.percent, Rate::parse).unwrap_or_else(|error| {
            complain(VenueInput::Percent, error.to_string());
            None
        });
        let charges = [
            rate.filter(|rate| *rate != Rate::ZERO)
                .map(|rate| Charge::percent("Share of the sale", rate, self.base)),
            (!flat.is_zero()).then(|| Charge::flat("Flat charge", flat)),
        ];
        let schedule = Schedule::of(charges.into_iter().flatten().collect());
        if let Err(error) = schedule.check() {
            complain(VenueInput::Percent, error.to_string());
        }
        if complaints.is_empty() {
            Ok(VenueSetup {
                name,
                arrangement: self.arrangement.clone(),
                postage,
                packing,
                schedule,
            })
        } else {
            Err(complaints)
        }
    }
}

/// The line under the form: on a sale at twenty units, what the buyer pays, what the venue takes, and what is left before the thing
/// itself is paid for.
#[must_use]
pub fn keeps_of_twenty(setup: &VenueSetup, currency: Currency) -> (Money, Money, Money) {
    let price = Money::from_minor(currency.unit().minor() * 20).unwrap_or_default();
    let posting = setup
        .arrangement
        .posting(Some(setup.postage), None, price)
        .unwrap_or_default();
    let settled = settle(&setup.schedule, &Sale::of(price, posting.paid_in));
    (
        price,
        settled.cut,
        settled.payout.minus(posting.out).minus(setup.packing),
    )
}
