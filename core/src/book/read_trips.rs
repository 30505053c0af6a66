//! Looking up trips, stops, the purse, work and pictures.

use super::command::Marks;
use super::index::Link;
use super::kinds::{Cash, Lot, Photo, Stop, Trip};
use super::read::{one, there};
use super::state::State;
use crate::id::{CashId, LotId, PhotoId, RulesId, StopId, ThingId, TripId, WorkId};
use crate::ledger::Purse;
use crate::measure::DistanceUnit;
use crate::money::{Currency, Money, Rate};
use crate::stamp::At;

impl State {
    /// The trips, in the order in which they were made.
    pub fn trips(&self) -> impl DoubleEndedIterator<Item = (TripId, &Trip)> {
        there(&self.tables.trips).map(|(id, trip)| (TripId(id), trip))
    }

    /// A trip.
    #[must_use]
    pub fn trip(&self, id: TripId) -> Option<&Trip> {
        one(&self.tables.trips, id.0)
    }

    /// The trip under way: of several, which only a merge brings about, the one that started last.
    #[must_use]
    pub fn open_trip(&self) -> Option<(TripId, &Trip)> {
        let open = |trip: &Trip| trip.ended.is_none();
        self.last_started(&open)
    }

    /// The trip under way, else the one that started last.
    #[must_use]
    pub fn last_trip(&self) -> Option<(TripId, &Trip)> {
        self.open_trip().or_else(|| self.last_started(&|_| true))
    }

    fn last_started(&self, is_it: &dyn Fn(&Trip) -> bool) -> Option<(TripId, &Trip)> {
        let mut last: Option<(TripId, &Trip)> = None;
        for (id, trip) in self.trips() {
            let later = |last: &(TripId, &Trip)| ms(trip.started) >= ms(last.1.started);
            if trip.started.is_some() && is_it(trip) && last.as_ref().is_none_or(later) {
                last = Some((id, trip));
            }
        }
        last
    }

    /// The trip that is planned and has not started: the newest.
    #[must_use]
    pub fn planned_trip(&self) -> Option<(TripId, &Trip)> {
        let mut trips = self.trips().rev();
        trips.find(|(_, trip)| trip.started.is_none() && trip.ended.is_none())
    }

    /// A stop.
    #[must_use]
    pub fn stop(&self, id: StopId) -> Option<&Stop> {
        one(&self.tables.stops, id.0)
    }

    /// The stop of the trip under way where the trader is.
    #[must_use]
    pub fn open_stop(&self) -> Option<(StopId, &Stop)> {
        let (trip, _) = self.open_trip()?;
        let mut last: Option<(StopId, &Stop)> = None;
        for id in self.index.of(Link::TripStops, trip.0) {
            let Some(stop) = one(&self.tables.stops, *id) else {
                continue;
            };
            let is_here = stop.arrived.is_some() && stop.left.is_none();
            let later = |last: &(StopId, &Stop)| ms(stop.arrived) >= ms(last.1.arrived);
            if is_here && last.as_ref().is_none_or(later) {
                last = Some((StopId(*id), stop));
            }
        }
        last
    }

    /// The stops of a trip: those visited in the order of arrival, then those planned in theirs. One that was taken away stays while
    /// something was bought at it, so that the sums hold.
    #[must_use]
    pub fn stops_of(&self, trip: TripId) -> Vec<(StopId, &Stop)> {
        let mut stops: Vec<(StopId, &Stop)> = Vec::new();
        for id in self.index.of(Link::TripStops, trip.0) {
            let (id, stop) = (StopId(*id), &self.tables.stops[id].value);
            if !stop.gone || self.is_used(id) {
                stops.push((id, stop));
            }
        }
        stops.sort_unstable_by_key(|(id, stop)| {
            (
                stop.arrived.is_none(),
                ms(stop.arrived),
                stop.left.is_none(),
                stop.planned,
                *id,
            )
        });
        stops
    }

    /// Whether something was bought at a stop, or paid.
    #[must_use]
    pub fn is_used(&self, id: StopId) -> bool {
        !self.index.of(Link::StopCash, id.0).is_empty() || self.lots_at(id).next().is_some()
    }

    /// The lots bought at a stop, as far as they count (see [`State::lots`]), each with what was paid for it.
    fn lots_at(&self, stop: StopId) -> impl Iterator<Item = (&Lot, Money)> {
        let lots = self.index.of(Link::StopLots, stop.0).iter();
        lots.filter_map(|id| Some((&self.tables.lots[id].value, self.total_of(LotId(*id))?)))
    }

    /// The trip that a lot was bought on. The stop may have been taken away since.
    #[must_use]
    pub fn trip_of(&self, lot: &Lot) -> Option<TripId> {
        self.tables.stops.get(&lot.stop?.0)?.value.trip
    }

    /// The movements and counts of a trip's purse, in the order in which they were made.
    pub fn cash_of(&self, trip: TripId) -> impl Iterator<Item = (CashId, &Cash)> {
        let cash = self.index.of(Link::TripCash, trip.0).iter();
        cash.map(|id| (CashId(*id), &self.tables.cash[id].value))
    }

    /// A trip's purse: the sum of its movements, less what was paid in cash for the lots of its stops.
    #[must_use]
    pub fn purse(&self, trip: TripId) -> Purse {
        let mut purse = Purse::default();
        for (_, cash) in self.cash_of(trip) {
            if let (Some(what), Some(amount)) = (cash.what, cash.amount) {
                purse.moved(what, amount);
            }
        }
        for stop in self.index.of(Link::TripStops, trip.0) {
            for (lot, total) in self.lots_at(StopId(*stop)) {
                purse.paid(lot.by.unwrap_or_default(), total);
            }
        }
        purse
    }

    /// How far sellers come down at the stop where the trader is, as a share of what they ask; as the house rules say where there is none.
    #[must_use]
    pub fn reach(&self, now: At, currency: Currency) -> Rate {
        let house = self.house_rules(currency).reach;
        let manner = self.open_stop().and_then(|(_, stop)| stop.manner);
        manner.unwrap_or_default().reach(now.minute_of_day(), house)
    }

    /// Buyer's premium of the stop where the trader is.
    #[must_use]
    pub fn premium_here(&self) -> Rate {
        let premium = self.open_stop().and_then(|(_, stop)| stop.premium);
        premium.unwrap_or_default()
    }

    /// What distances are counted in: miles until the trader says otherwise.
    #[must_use]
    pub fn distance_unit(&self) -> DistanceUnit {
        let said = one(&self.tables.rules, RulesId::SINGLE.0).and_then(|rules| rules.distance);
        said.unwrap_or_default()
    }

    /// The marks of a thing, as its form shows them.
    #[must_use]
    pub fn marks(&self, thing: ThingId) -> Marks {
        let Some(thing) = self.thing(thing) else {
            return Marks::default();
        };
        let text = |mark: &Option<String>| mark.clone().unwrap_or_default();
        Marks {
            colour: text(&thing.colour),
            label: text(&thing.label),
            maker: text(&thing.maker),
            flaw: text(&thing.flaw),
            pieces: thing.pieces,
        }
    }

    /// What was done to a thing: each work with its name and the thing's share of its cost.
    #[must_use]
    pub fn works_of(&self, thing: ThingId) -> Vec<(WorkId, String, Money)> {
        let mut found = Vec::new();
        for (work, shared) in self.works_on(thing) {
            let share = shared.shares.iter().find(|(of, _)| *of == thing);
            if let Some((_, share)) = share {
                found.push((shared.id, work.name.clone().unwrap_or_default(), *share));
            }
        }
        found
    }

    /// All pictures.
    pub fn photos(&self) -> impl Iterator<Item = (PhotoId, &Photo)> {
        there(&self.tables.photos).map(|(id, photo)| (PhotoId(id), photo))
    }

    /// The pictures of a thing, oldest first.
    pub fn photos_of(&self, thing: ThingId) -> impl Iterator<Item = (PhotoId, &Photo)> {
        let photos = self.index.of(Link::ThingPhotos, thing.0).iter();
        photos.map(|id| (PhotoId(*id), &self.tables.photos[id].value))
    }

    /// What is in the purse of the trip under way, else of the last one.
    #[must_use]
    pub fn cash_left(&self) -> Option<Money> {
        let (trip, _) = self.last_trip()?;
        Some(self.purse(trip).left())
    }
}

/// A time to sort by; one that was not said comes first.
fn ms(at: Option<At>) -> u64 {
    at.map_or(0, |At(ms, _)| ms)
}
