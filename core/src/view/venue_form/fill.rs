//! Filling the form from the book, and how old the terms are.

use super::charge::ChargeForm;
use super::choices::Way;
use super::limit::GroupForm;
use super::{PostForm, UsualForm, VenueForm};
use crate::book::{State, Venue, VenueSetup};
use crate::day::Day;
use crate::id::VenueId;
use crate::money::{Currency, Money, plain};
use crate::terms::stale;

/// When terms began to hold, and when they were last looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dates {
    /// First day on which they hold.
    pub from: Day,
    /// When the trader last looked whether they still hold.
    pub checked: Day,
    /// How many days ago that was, when it is worth another look.
    pub stale: Option<u32>,
}

/// A venue as it stands, as a setup.
#[must_use]
pub fn setup_of(state: &State, id: VenueId, today: Day) -> Option<VenueSetup> {
    let Venue {
        name,
        arrangement,
        postage,
        packing,
        ..
    } = state.venue(id)?.clone();
    let terms = state.terms_on(id, today);
    Some(VenueSetup {
        name: name.unwrap_or_default(),
        arrangement: arrangement.unwrap_or_default(),
        // Nothing, where parcels are posted, was never said: so the form once wrote what was left empty.
        postage: postage.filter(|postage| !postage.is_zero()),
        packing,
        usual: state.usual_of(id),
        schedule: terms
            .and_then(|(_, terms)| terms.schedule.clone())
            .unwrap_or_default(),
    })
}

/// How old a venue's terms are; `None` where it has none.
#[must_use]
pub fn dates(state: &State, id: VenueId, today: Day) -> Option<Dates> {
    let (_, terms) = state.terms_on(id, today)?;
    let from = terms.from?;
    let checked = terms.checked.unwrap_or(from);
    Some(Dates {
        from,
        checked,
        stale: stale(checked, today),
    })
}

impl VenueForm {
    /// The form of a venue as it stands.
    #[must_use]
    pub fn of(state: &State, id: VenueId, today: Day) -> Option<Self> {
        let setup = setup_of(state, id, today)?;
        Some(Self::from_setup(&setup, state.currency()?))
    }

    /// The form of a setup.
    #[must_use]
    pub fn from_setup(setup: &VenueSetup, currency: Currency) -> Self {
        let amount = |money: Option<Money>| {
            let text = |money| plain(money, currency);
            money.map(text).unwrap_or_default()
        };
        let mut form = Self {
            name: setup.name.clone(),
            charges: Vec::new(),
            groups: Vec::new(),
            post: PostForm::of(&setup.arrangement, currency),
            postage: amount(setup.postage),
            packing: amount(setup.packing),
            usual: UsualForm::of(&setup.usual, currency),
        };
        for charge in &setup.schedule.charges {
            form.charges.push(ChargeForm::of(charge, currency));
        }
        for group in &setup.schedule.groups {
            form.groups.push(GroupForm::of(group, currency));
        }
        form.make_plain();
        form
    }

    /// Gives the plain case both its charges, though one of them be empty.
    fn make_plain(&mut self) {
        let mut padded = self.clone();
        let charges = &mut padded.charges;
        if charges.first().is_none_or(|first| first.way == Way::Flat) {
            charges.insert(0, ChargeForm::share());
        }
        if charges.len() == 1 {
            charges.push(ChargeForm::flat_charge());
        }
        if padded.is_plain() {
            *self = padded;
        }
    }
}
