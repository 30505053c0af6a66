//! What belongs to what, kept up as changes are folded in: so the things of a lot or the stops of a trip are found without going through all
//! there are. A law holds it against a fresh computation.

use super::kinds::Tables;
use super::read::one;
use crate::change::RecordKey;
use crate::kind::RecordKind;
use litemap::LiteMap;
use uuid::Uuid;

/// A way from what owns to what it owns. What was taken away is left out, unless it says otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Link {
    /// From a lot to its things.
    LotThings,
    /// From a trip to its stops, those taken away included.
    TripStops,
    /// From a stop to the lots bought there, those taken away included.
    StopLots,
    /// From a trip to the entries of its purse.
    TripCash,
    /// From a stop to the entries of the purse made there.
    StopCash,
    /// From work to its links with things.
    WorkWorked,
    /// From a thing to its links with work.
    ThingWorked,
    /// From a thing to its pictures.
    ThingPhotos,
}

/// The ways that there are; the last of them counts them.
const LINKS: usize = Link::ThingPhotos as usize + 1;

/// Owner → what it owns, in the order of ids. An owner of nothing is left out.
type Owned = LiteMap<Uuid, Vec<Uuid>>;

/// All that belongs to something, by the way that leads to it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Index([Owned; LINKS]);

/// What a record belongs to.
type Owners = [Option<(Link, Uuid)>; 2];

impl Index {
    /// What belongs to this, in the order of ids.
    pub(super) fn of(&self, link: Link, owner: Uuid) -> &[Uuid] {
        self.0[link as usize].get(&owner).map_or(&[], Vec::as_slice)
    }

    /// Moves a record from what it belonged to, to what it belongs to now.
    pub(super) fn moved(&mut self, id: Uuid, before: Owners, now: Owners) {
        if before == now {
            return;
        }
        for (link, owner) in before.into_iter().flatten() {
            let owned = &mut self.0[link as usize];
            let Some(of_owner) = owned.get_mut(&owner) else {
                continue;
            };
            of_owner.retain(|known| *known != id);
            if of_owner.is_empty() {
                owned.remove(&owner);
            }
        }
        for (link, owner) in now.into_iter().flatten() {
            let of_owner = self.0[link as usize].entry(owner).or_default();
            if let Err(place) = of_owner.binary_search(&id) {
                of_owner.insert(place, id);
            }
        }
    }
}

/// What a record belongs to, as it stands.
pub(super) fn owners(tables: &Tables, record: &RecordKey) -> Owners {
    let (id, link) = (record.id, |link, owner: Option<Uuid>| Some((link, owner?)));
    match &record.kind {
        RecordKind::Thing => {
            let lot = one(&tables.things, id).and_then(|thing| thing.lot);
            [link(Link::LotThings, lot.map(|lot| lot.0)), None]
        }
        RecordKind::Lot => {
            let lot = tables.lots.get(&id);
            let stop = lot.and_then(|lot| lot.value.stop);
            [link(Link::StopLots, stop.map(|stop| stop.0)), None]
        }
        RecordKind::Stop => {
            let stop = tables.stops.get(&id);
            let trip = stop.and_then(|stop| stop.value.trip);
            [link(Link::TripStops, trip.map(|trip| trip.0)), None]
        }
        RecordKind::Cash => {
            let cash = one(&tables.cash, id);
            let trip = cash.and_then(|cash| cash.trip).map(|trip| trip.0);
            let stop = cash.and_then(|cash| cash.stop).map(|stop| stop.0);
            [link(Link::TripCash, trip), link(Link::StopCash, stop)]
        }
        RecordKind::Worked => {
            let worked = one(&tables.worked, id);
            let work = worked.and_then(|worked| worked.work).map(|work| work.0);
            let thing = worked.and_then(|worked| worked.thing).map(|thing| thing.0);
            [link(Link::WorkWorked, work), link(Link::ThingWorked, thing)]
        }
        RecordKind::Photo => {
            let thing = one(&tables.photos, id).and_then(|photo| photo.thing);
            [link(Link::ThingPhotos, thing.map(|thing| thing.0)), None]
        }
        // Found by their ids alone.
        _ => [None, None],
    }
}
