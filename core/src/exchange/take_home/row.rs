//! A row of the haul's table: one thing, or money that is on none yet, and what is looked up for it.

use super::columns::Cell;
use crate::book::{Expected, KeepNow, Lot, State, Thing, Work};
use crate::day::Day;
use crate::id::{LotId, ThingId, WorkId};
use crate::money::{Currency, Money, plain};
use crate::trip::stop_title;
use crate::worth::Sells;

/// What a row stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// One thing.
    Thing(ThingId),
    /// So many things of a lot that are not sorted yet, with what they carry until then.
    Unsorted(usize),
    /// What is on no thing of a lot; either sign.
    NotShared,
    /// What is on no thing of a bill for work.
    Work(WorkId),
}

impl Stands {
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Thing(_) => "thing",
            Self::Unsorted(_) => "not sorted yet",
            Self::NotShared => "not yet shared",
            Self::Work(_) => "work on no thing",
        }
    }

    pub(super) const fn things(self) -> usize {
        match self {
            Self::Thing(_) => 1,
            Self::Unsorted(count) => count,
            Self::NotShared | Self::Work(_) => 0,
        }
    }
}

/// A thing with all that its columns are taken from; or what is on none.
#[derive(Debug)]
pub struct Row<'a> {
    /// The book.
    pub state: &'a State,
    /// The book's currency.
    pub currency: Currency,
    /// What it stands for.
    pub stands: Stands,
    /// The thing; one of which nothing is known where it stands for none.
    pub thing: &'a Thing,
    /// Which lot it was bought in.
    pub lot_id: Option<LotId>,
    /// That lot, gone or not.
    pub lot: Option<&'a Lot>,
    /// The lots of all things, sorted: as often as there are things in them.
    pub lots: &'a [LotId],
    /// Its share of the lot's price.
    pub paid: Option<Money>,
    /// Its share of the work put into it.
    pub work: Option<Money>,
    /// What you keep of it now.
    pub now: Option<KeepNow>,
}

impl Row<'_> {
    pub(super) const fn id(&self) -> Option<ThingId> {
        match self.stands {
            Stands::Thing(id) => Some(id),
            _ => None,
        }
    }

    pub(super) fn day(&self) -> Option<Day> {
        match self.stands {
            Stands::Work(id) => self.bill(id)?.day,
            _ => self.lot?.bought?.day(),
        }
    }

    pub(super) fn name(&self) -> Option<String> {
        let of_lot = || self.lot?.name.clone();
        let rest = match self.stands {
            Stands::Thing(_) => return self.thing.name.clone().or_else(|| self.kind()),
            Stands::Unsorted(1) => "1 thing not sorted yet".to_owned(),
            Stands::Unsorted(count) => format!("{count} things not sorted yet"),
            Stands::NotShared | Stands::Work(_) => self.stands.word().to_owned(),
        };
        let of = match self.stands {
            Stands::Work(id) => self.bill(id).and_then(|work| work.name.clone()),
            _ => of_lot(),
        };
        Some(match of.filter(|name| !name.is_empty()) {
            Some(name) => format!("{name}: {rest}"),
            None => rest,
        })
    }

    fn bill(&self, id: WorkId) -> Option<&Work> {
        Some(&self.state.tables.works.get(&id.0)?.value)
    }

    pub(super) fn kind(&self) -> Option<String> {
        Some(self.state.kind(self.thing.kind?)?.name)
    }

    /// By the record, since a venue that was taken away meanwhile still has a name.
    pub(super) fn venue(&self) -> Option<String> {
        let id = self.thing.expected.as_ref()?.venue;
        self.state.tables.venues.get(&id.0)?.value.name.clone()
    }

    /// Its stop, as the trader calls it; one without a name by its number and time.
    pub(super) fn stop(&self) -> Option<String> {
        let id = self.lot?.stop?;
        let trip = self.state.stop(id)?.trip?;
        let stops = self.state.stops_of(trip);
        let (at, (_, stop)) = (1..).zip(&stops).find(|(_, (one, _))| *one == id)?;
        let name = stop.name.as_deref().unwrap_or_default();
        Some(stop_title(name, at, stop.arrived))
    }

    pub(super) fn money(&self, amount: Option<Money>) -> Cell {
        let text = amount.map(|amount| plain(amount, self.currency));
        // A hyphen: spreadsheets do not know the true minus.
        Cell::Plain(text.unwrap_or_default().replace('\u{2212}', "-"))
    }

    pub(super) fn sells(&self, price: fn(Sells) -> Money) -> Cell {
        self.money(self.thing.sells.map(price))
    }

    /// A low or high price, where it was typed: it is not the likely one.
    pub(super) fn beside_likely(&self, price: fn(Sells) -> Money) -> Cell {
        let typed = |sells: &Sells| price(*sells) != sells.likely();
        self.money(self.thing.sells.filter(typed).map(price))
    }

    pub(super) fn judged(&self, amount: fn(&Expected) -> Option<Money>) -> Cell {
        self.money(self.thing.expected.as_ref().and_then(amount))
    }

    pub(super) fn said(&self) -> Option<&Expected> {
        self.thing.expected.as_ref()
    }

    /// How many things are in its lot.
    pub(super) fn mates(&self) -> Option<usize> {
        let lot = self.lot_id?;
        let to = |end: &dyn Fn(&LotId) -> bool| self.lots.partition_point(end);
        let sorted = to(&|one| *one <= lot) - to(&|one| *one < lot);
        // What is not sorted went with its lot.
        let there = self.lot.filter(|lot| !lot.gone);
        let unsorted = there.and_then(|lot| lot.unsorted).unwrap_or(0);
        Some(sorted + usize::from(unsorted))
    }

    pub(super) fn disputed(&self) -> Option<String> {
        let tables = &self.state.tables;
        let disputes = match self.stands {
            Stands::Thing(id) => &tables.things.get(&id.0)?.disputes,
            Stands::Unsorted(_) | Stands::NotShared => &tables.lots.get(&self.lot_id?.0)?.disputes,
            Stands::Work(id) => &tables.works.get(&id.0)?.disputes,
        };
        let fields: Vec<&str> = disputes.keys().map(String::as_str).collect();
        Some(fields.join(" "))
    }
}
