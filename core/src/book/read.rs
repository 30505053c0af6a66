//! Looking things up in the book, gone ones left out.

use super::expected::Expected;
use super::kinds::{Device, Lot, Passed, Terms, Thing, Venue};
use super::state::State;
use super::table::{Record, Table};
use crate::appraise::HouseRules;
use crate::day::Day;
use crate::id::{BookId, DeviceCode, DeviceId, LotId, RulesId, TermsId, ThingId, VenueId};
use crate::measure::System;
use crate::money::Currency;
use crate::terms::Usual;
use crate::worth::Allowances;
use uuid::Uuid;

pub(super) fn there<T: Record>(table: &Table<T>) -> impl DoubleEndedIterator<Item = (Uuid, &T)> {
    table
        .iter()
        .filter(|(_, entry)| !entry.value.is_gone())
        .map(|(id, entry)| (*id, &entry.value))
}

pub(super) fn one<T: Record>(table: &Table<T>, id: Uuid) -> Option<&T> {
    table
        .get(&id)
        .map(|entry| &entry.value)
        .filter(|record| !record.is_gone())
}

impl State {
    /// The book's id and currency, once it has begun. Of several the oldest: two devices that join each other's book at the same time
    /// take each other's away, and then both count again.
    #[must_use]
    pub fn book(&self) -> Option<(BookId, Currency)> {
        let books = self.tables.books.iter();
        let mut found = None;
        for (id, entry) in books {
            let (book, gone) = (&entry.value, entry.value.gone);
            if let Some(currency) = book.currency
                && found.is_none_or(|(_, _, was_gone)| was_gone && !gone)
            {
                found = Some((BookId(*id), currency, gone));
            }
        }
        found.map(|(id, currency, _)| (id, currency))
    }

    /// The book's currency, once it has begun.
    #[must_use]
    pub fn currency(&self) -> Option<Currency> {
        self.book().map(|(_, currency)| currency)
    }

    /// What a device is called, or its code while it has no name here.
    #[must_use]
    pub fn name_of(&self, code: DeviceCode) -> String {
        let named = self
            .device(code)
            .and_then(|(_, device)| device.name.clone());
        named.unwrap_or_else(|| code.to_string())
    }

    /// The devices that write in the book.
    pub fn devices(&self) -> impl Iterator<Item = (DeviceId, &Device)> {
        there(&self.tables.devices).map(|(id, device)| (DeviceId(id), device))
    }

    /// The device with a code.
    #[must_use]
    pub fn device(&self, code: DeviceCode) -> Option<(DeviceId, &Device)> {
        there(&self.tables.devices)
            .find(|(_, device)| device.code == Some(code))
            .map(|(id, device)| (DeviceId(id), device))
    }

    /// The house rules: what the trader set, else modest limits that are on from the first day.
    #[must_use]
    pub fn house_rules(&self, currency: Currency) -> HouseRules {
        let start = HouseRules::starting(currency);
        let Some(said) = one(&self.tables.rules, RulesId::SINGLE.0) else {
            return start;
        };
        // The fields are set together. Unset beside a set neighbour is a rule that was switched off.
        let least_keep = if said.no_loss_if_low.is_some() {
            said.least_keep
        } else {
            start.least_keep
        };
        HouseRules {
            least_keep,
            no_loss_if_low: said.no_loss_if_low.unwrap_or(start.no_loss_if_low),
            cash_step: said.cash_step.unwrap_or(start.cash_step),
            reach: said.reach.unwrap_or(start.reach),
            least_multiple: said.least_multiple,
            longest_wait: said.longest_wait,
            hourly: said.hourly,
        }
    }

    /// How things usually sell on a venue, as far as it was said.
    #[must_use]
    pub fn usual_of(&self, venue: VenueId) -> Usual {
        let Some(said) = self.venue(venue) else {
            return Usual::default();
        };
        Usual {
            promoted: said.promoted,
            regions: said.regions.clone().unwrap_or_default(),
            monthly: said.monthly,
        }
    }

    /// What is set aside: what the trader set, else modest shares.
    #[must_use]
    pub fn allowances(&self) -> Allowances {
        let start = Allowances::default();
        let Some(said) = one(&self.tables.rules, RulesId::SINGLE.0) else {
            return start;
        };
        Allowances {
            unsold: said.unsold.unwrap_or(start.unsold),
            offers: said.offers.unwrap_or(start.offers),
            returns: said.returns.unwrap_or(start.returns),
        }
    }

    /// The units that measures are typed and shown in: those chosen, else ounces in a book of US dollars, grams in any other.
    #[must_use]
    pub fn units(&self) -> System {
        let chosen = one(&self.tables.rules, RulesId::SINGLE.0).and_then(|rules| rules.units);
        let usual = || self.currency().map(Self::units_of).unwrap_or_default();
        chosen.unwrap_or_else(usual)
    }

    /// The units that a book of a currency begins with. From memory, and only a first guess: parcels are weighed in ounces where US dollars
    /// are paid.
    #[must_use]
    pub fn units_of(currency: Currency) -> System {
        if currency.code() == "USD" {
            System::OuncesInches
        } else {
            System::GramsCentimetres
        }
    }

    /// The venues, oldest first.
    pub fn venues(&self) -> impl Iterator<Item = (VenueId, &Venue)> {
        there(&self.tables.venues).map(|(id, venue)| (VenueId(id), venue))
    }

    /// A venue.
    #[must_use]
    pub fn venue(&self, id: VenueId) -> Option<&Venue> {
        one(&self.tables.venues, id.0)
    }

    /// The venue that things are judged on: the one set, else the oldest.
    #[must_use]
    pub fn usual_venue(&self) -> Option<VenueId> {
        let set = one(&self.tables.rules, RulesId::SINGLE.0).and_then(|rules| rules.usual_venue);
        set.filter(|id| self.venue(*id).is_some())
            .or_else(|| self.venues().next().map(|(id, _)| id))
    }

    /// The terms of a venue that hold on a day: the latest that started by then.
    #[must_use]
    pub fn terms_on(&self, venue: VenueId, day: Day) -> Option<(TermsId, &Terms)> {
        let of_venue = there(&self.tables.terms)
            .filter(|(_, terms)| terms.venue == Some(venue) && terms.schedule.is_some());
        let started = of_venue.filter(|(_, terms)| terms.from.is_some_and(|from| from <= day));
        started
            .max_by_key(|(id, terms)| (terms.from, *id))
            .map(|(id, terms)| (TermsId(id), terms))
    }

    /// The newest terms of a venue, whatever the day.
    #[must_use]
    pub fn newest_terms(&self, venue: VenueId) -> Option<&Terms> {
        let of_venue = there(&self.tables.terms)
            .filter(|(_, terms)| terms.venue == Some(venue) && terms.schedule.is_some());
        of_venue
            .max_by_key(|(id, terms)| (terms.from, *id))
            .map(|(_, terms)| terms)
    }

    /// Whether a verdict was given by these terms.
    #[must_use]
    pub fn terms_used(&self, id: TermsId) -> bool {
        let used = |expected: &Expected| expected.terms == id;
        self.tables
            .things
            .values()
            .any(|entry| entry.value.expected.as_ref().is_some_and(used))
    }

    /// The things, oldest first.
    pub fn things(&self) -> impl DoubleEndedIterator<Item = (ThingId, &Thing)> {
        there(&self.tables.things).map(|(id, thing)| (ThingId(id), thing))
    }

    /// Things passed by, oldest first.
    pub fn passed_by(&self) -> impl DoubleEndedIterator<Item = &Passed> {
        there(&self.tables.passed).map(|(_, thing)| thing)
    }

    /// A thing.
    #[must_use]
    pub fn thing(&self, id: ThingId) -> Option<&Thing> {
        one(&self.tables.things, id.0)
    }

    /// A lot.
    #[must_use]
    pub fn lot(&self, id: LotId) -> Option<&Lot> {
        one(&self.tables.lots, id.0)
    }
}
