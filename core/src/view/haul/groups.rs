//! What was bought, in groups: lots of several things with how they are shared, lots to be sorted, single things.

use super::{HaulRow, row};
use crate::book::{Lot, SharedLot, State};
use crate::day::Day;
use crate::id::{LotId, StopId, ThingId};
use crate::ledger::Paying;
use crate::lot::{Method, Share};
use crate::money::Money;
use crate::stamp::At;
use crate::view::lot_words;
use litemap::LiteMap;

/// Things that were bought together.
#[derive(Clone, Debug, PartialEq)]
pub enum Group {
    /// Several things for one price; or one that does not carry all of its price.
    Lot(LotGroup),
    /// A lot of which nothing is sorted yet.
    Unsorted(LotGroup),
    /// A single thing.
    Thing(HaulRow),
}

impl Group {
    /// Where it was bought.
    #[must_use]
    pub const fn stop(&self) -> Option<StopId> {
        match self {
            Self::Lot(lot) | Self::Unsorted(lot) => lot.stop,
            Self::Thing(thing) => thing.stop,
        }
    }
}

/// A lot and how it is shared. The shares of the rows, `on_unsorted` and `not_yet_shared` add up to `total`.
#[derive(Clone, Debug, PartialEq)]
pub struct LotGroup {
    /// Which.
    pub id: LotId,
    /// Its name; may be empty.
    pub name: String,
    /// Where it was bought.
    pub stop: Option<StopId>,
    /// When.
    pub bought: Option<At>,
    /// What was handed over.
    pub paid: Money,
    /// What had to be paid on top.
    pub extras: Money,
    /// Both.
    pub total: Money,
    /// How it was paid for.
    pub by: Paying,
    /// How it was to be shared.
    pub method: Method,
    /// How it is shared: evenly while something that the method goes by is not known of one.
    pub shared_by: Method,
    /// Its things, in the order in which they were weighed up.
    pub rows: Vec<LotRow>,
    /// How many are not sorted yet.
    pub unsorted: usize,
    /// What those carry for the time being.
    pub on_unsorted: Money,
    /// What is on no thing; either sign.
    pub not_yet_shared: Money,
    /// The things that got a spare minor unit.
    pub spare: Vec<ThingId>,
    /// Whether something about the lot waits for the trader's choice.
    pub disputed: bool,
}

/// One thing of a lot.
#[derive(Clone, Debug, PartialEq)]
pub struct LotRow {
    /// The thing.
    pub row: HaulRow,
    /// Its share.
    pub share: Share,
    /// Its postage and the venue's name, when its sale can't even pay that. Told of the rows that are seen: those of the lot that lies open
    /// in the list, and of a lot's own page.
    pub short: Option<(Money, String)>,
}

/// What was bought on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayGroups {
    /// The day; none when it is not known.
    pub day: Option<Day>,
    /// Lots, then what is to be sorted, then single things; newest first.
    pub groups: Vec<Group>,
}

/// The groups that these lots make. The first lot of all lies `open` in the list, with what is worked out for it alone.
pub(super) fn groups(
    state: &State,
    lots: &[&SharedLot<'_>],
    work: &LiteMap<ThingId, Money>,
    open: &mut bool,
) -> Vec<Group> {
    // Those of a sort stay newest first, as the lots are.
    let (mut found, mut unsorted, mut things) = (Vec::new(), Vec::new(), Vec::new());
    for lot in lots {
        match group(state, lot, work) {
            Group::Lot(mut lot) => {
                if found.is_empty() && *open && !lot.rows.is_empty() {
                    *open = false;
                    tell_short(state, &mut lot);
                }
                found.push(Group::Lot(lot));
            }
            group @ Group::Unsorted(_) => unsorted.push(group),
            group @ Group::Thing(_) => things.push(group),
        }
    }
    found.append(&mut unsorted);
    found.append(&mut things);
    found
}

/// Says of which things the sale can't even pay the postage. It takes a sale of each to tell: only for a lot whose rows are seen.
fn tell_short(state: &State, lot: &mut LotGroup) {
    for row in &mut lot.rows {
        let thing = state.thing(row.row.id).filter(|_| !row.share.kept);
        let short = thing.and_then(|thing| state.postage_short(thing, lot.bought));
        row.short = short.map(|short| {
            let venue = state.venue(short.venue);
            let name = venue.and_then(|venue| venue.name.clone());
            (short.postage, name.unwrap_or_default())
        });
    }
}

fn group(state: &State, lot: &SharedLot<'_>, work: &LiteMap<ThingId, Money>) -> Group {
    let whole = lot.split.not_yet_shared.is_zero() && lot.split.unsorted.is_empty();
    let share_of = |place: usize| lot.split.shares[place];
    if let ([id], true) = (lot.things.as_slice(), whole)
        && let Some(row) = row(state, *id, share_of(0).amount, work)
    {
        return Group::Thing(row);
    }
    let group = lot_group(state, lot, work);
    if group.rows.is_empty() && group.unsorted > 0 {
        Group::Unsorted(group)
    } else {
        Group::Lot(group)
    }
}

fn lot_group(state: &State, of: &SharedLot<'_>, work: &LiteMap<ThingId, Money>) -> LotGroup {
    let lot: &Lot = of.lot;
    let mut rows = Vec::with_capacity(of.things.len());
    for (id, share) in of.things.iter().zip(&of.split.shares) {
        let Some(row) = row(state, *id, share.amount, work) else {
            continue;
        };
        rows.push(LotRow {
            row,
            share: *share,
            short: None,
        });
    }
    let entry = state.tables.lots.get(&of.id.0);
    LotGroup {
        id: of.id,
        name: match &lot.name {
            // Nothing that is left of it says what it was.
            None if of.things.is_empty() && of.split.unsorted.is_empty() => lot_words(state, of),
            name => name.clone().unwrap_or_default(),
        },
        stop: lot.stop,
        bought: lot.bought,
        paid: lot.paid.unwrap_or_default(),
        extras: lot.extras.unwrap_or_default(),
        total: of.total,
        by: lot.by.unwrap_or_default(),
        method: of.split.asked,
        shared_by: of.split.by,
        rows,
        unsorted: of.split.unsorted.len(),
        on_unsorted: of.split.on_unsorted(),
        not_yet_shared: of.split.not_yet_shared,
        spare: of
            .split
            .spare
            .iter()
            .map(|place| of.things[*place])
            .collect(),
        disputed: entry.is_some_and(|entry| !entry.disputes.is_empty()),
    }
}

/// One lot as Haul shows it, whatever it holds.
#[must_use]
pub fn one_lot(state: &State, id: LotId) -> Option<LotGroup> {
    let lot = state.shared_lot(id)?;
    let mut group = lot_group(state, &lot, &state.work_costs_of(&lot.things));
    tell_short(state, &mut group);
    Some(group)
}
