//! The attention list: what no rule can settle, and what a merge or an undo can leave wrong. Each has its cure in `view`.
//!
//! Two devices decide each on its own book, and what was right on both may not be right together: one takes a stop away while the other buys
//! at it, both start a trip. Nothing here stops a sum: what is wrong has a sum as well, and is named here. What an edit moves in the cost of
//! things that were sold belongs here too, once sales are a kind.

use super::costs::SharedLot;
use super::read::there;
use super::state::State;
use crate::change::RecordKey;
use crate::id::{DeviceCode, LotId, StopId, ThingId, TripId, WorkId};
use crate::kind::RecordKind;
use crate::money::Money;
use uuid::Uuid;

/// One thing that needs the trader.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Concern {
    /// Two devices set a field without knowing of each other.
    Dispute {
        /// Which record.
        record: RecordKey,
        /// Which field.
        field: String,
    },
    /// More than one book is there, of those that a file brought together.
    SeveralBooks,
    /// Several records speak of one device.
    SeveralNames(DeviceCode),
    /// Shares of a lot's price miss its sum.
    NotShared {
        /// Which lot; it has things.
        lot: LotId,
        /// What is on no thing: over nothing when the shares are too little, under nothing when they are too much.
        missing: Money,
    },
    /// Nothing that work was put into is there, so what it cost is on no thing.
    WorkOnNothing {
        /// Which work.
        work: WorkId,
        /// What it cost.
        cost: Money,
    },
    /// A lot was taken away while things of it are there.
    LotGone {
        /// Which lot.
        lot: LotId,
        /// How many things of it are there.
        things: usize,
    },
    /// Nothing says what a thing cost: its lot is not there, or without a price that can be read.
    NoCost(ThingId),
    /// A stop was taken away where something was bought or paid.
    StopGone(StopId),
    /// A trip was taken away on which something was bought or paid.
    TripGone(TripId),
    /// More than one trip is under way: this one is not the last.
    StillOpen {
        /// The trip that started earlier.
        trip: TripId,
        /// The one that started last.
        last: TripId,
    },
    /// A trip or a stop ends before it begins, or an odometer went backwards.
    Backwards(RecordKey),
    /// Two records of a kind have one name.
    OneName {
        /// The older one.
        first: RecordKey,
        /// The younger one.
        second: RecordKey,
        /// The name.
        name: String,
    },
}

impl State {
    /// All that needs the trader: disputes first, then what is wrong with money, then the rest.
    #[must_use]
    pub fn attention(&self) -> Vec<Concern> {
        let mut found = Vec::new();
        if there(&self.tables.books).count() > 1 {
            found.push(Concern::SeveralBooks);
        }
        for (record, field) in self.disputed() {
            found.push(Concern::Dispute { record, field });
        }
        let lots = self.lots();
        self.about_lots(&lots, &mut found);
        self.about_work(&mut found);
        self.about_trips(&lots, &mut found);
        self.about_names(&mut found);
        found
    }

    fn about_lots(&self, lots: &[SharedLot<'_>], found: &mut Vec<Concern>) {
        let (mut paid_for, mut in_lots): (Vec<LotId>, usize) = (Vec::new(), 0);
        for shared in lots {
            paid_for.push(shared.id);
            let things = shared.things.len();
            in_lots += things;
            if shared.lot.gone {
                let lot = shared.id;
                found.push(Concern::LotGone { lot, things });
            }
            let missing = shared.split.not_yet_shared;
            // Of a lot without things it is a loss that was kept: see `return_to_seller`.
            if !missing.is_zero() && things > 0 {
                let lot = shared.id;
                found.push(Concern::NotShared { lot, missing });
            }
        }
        if self.things().count() == in_lots {
            return;
        }
        for (id, thing) in self.things() {
            let is_paid_for = |lot: LotId| paid_for.binary_search(&lot).is_ok();
            if !thing.lot.is_some_and(is_paid_for) {
                found.push(Concern::NoCost(id));
            }
        }
    }

    fn about_work(&self, found: &mut Vec<Concern>) {
        for work in self.works() {
            if work.shares.is_empty() && !work.cost.is_zero() {
                let (work, cost) = (work.id, work.cost);
                found.push(Concern::WorkOnNothing { work, cost });
            }
        }
    }

    fn about_trips(&self, lots: &[SharedLot<'_>], found: &mut Vec<Concern>) {
        let (mut stops, mut trips): (Vec<StopId>, Vec<TripId>) = (Vec::new(), Vec::new());
        for shared in lots {
            stops.extend(shared.lot.stop);
            trips.extend(self.trip_of(shared.lot));
        }
        for (_, cash) in there(&self.tables.cash) {
            stops.extend(cash.stop);
            trips.extend(cash.trip);
        }
        stops.sort_unstable();
        stops.dedup();
        trips.sort_unstable();
        trips.dedup();
        let (known_stops, known_trips) = (&self.tables.stops, &self.tables.trips);
        stops.retain(|id| known_stops.get(&id.0).is_some_and(|stop| stop.value.gone));
        trips.retain(|id| known_trips.get(&id.0).is_some_and(|trip| trip.value.gone));
        found.extend(stops.into_iter().map(Concern::StopGone));
        found.extend(trips.into_iter().map(Concern::TripGone));
        let last = self.open_trip().map(|(last, _)| last);
        for (trip, known) in self.trips() {
            let is_open = known.started.is_some() && known.ended.is_none();
            if let Some(last) = last.filter(|last| is_open && *last != trip) {
                found.push(Concern::StillOpen { trip, last });
            }
            let (out, back) = (known.odometer_out, known.odometer_back);
            let went_back = out.zip(back).is_some_and(|(out, back)| back < out);
            let (first, last) = (known.started, known.ended);
            let ended = first
                .zip(last)
                .is_some_and(|(first, last)| last.0 < first.0);
            if went_back || ended {
                found.push(Concern::Backwards(trip.record()));
            }
        }
        for (id, stop) in there(&self.tables.stops) {
            let (first, last) = (stop.arrived, stop.left);
            if first
                .zip(last)
                .is_some_and(|(first, last)| last.0 < first.0)
            {
                found.push(Concern::Backwards(StopId(id).record()));
            }
        }
    }

    fn about_names(&self, found: &mut Vec<Concern>) {
        let mut codes: Vec<DeviceCode> = Vec::new();
        for (_, device) in there(&self.tables.devices) {
            codes.extend(device.code);
        }
        codes.sort_unstable();
        for of_one in codes.chunk_by(|one, next| one == next) {
            if of_one.len() > 1 {
                found.push(Concern::SeveralNames(of_one[0]));
            }
        }
        let mut names: Vec<(RecordKind, String, Uuid)> = Vec::new();
        for (id, venue) in self.venues() {
            names.extend(
                venue
                    .name
                    .clone()
                    .map(|name| (RecordKind::Venue, name, id.0)),
            );
        }
        for (id, card) in self.cards() {
            let card = card.card.as_ref();
            names.extend(card.map(|card| (RecordKind::Card, card.name.clone(), id.0)));
        }
        for (id, container) in self.containers() {
            names.push((RecordKind::Container, container.name, id.0));
        }
        for kind in self.kinds() {
            names.push((RecordKind::Kind, kind.name, kind.id.0));
        }
        names.sort_unstable();
        for pair in names.windows(2) {
            let ((kind, name, first), (other, same, second)) = (&pair[0], &pair[1]);
            if (kind, name) == (other, same) {
                found.push(Concern::OneName {
                    first: key(kind, *first),
                    second: key(kind, *second),
                    name: name.clone(),
                });
            }
        }
    }
}

fn key(kind: &RecordKind, id: Uuid) -> RecordKey {
    let kind = kind.clone();
    RecordKey { kind, id }
}
