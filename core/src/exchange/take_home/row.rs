//! A row of the haul's table: one thing, and what is looked up for it.

use super::columns::Cell;
use crate::book::{Expected, Lot, State, Thing};
use crate::day::Day;
use crate::id::{LotId, ThingId};
use crate::money::{Currency, Money, plain};
use crate::trip::stop_title;
use crate::worth::Sells;

/// A thing with all that its columns are taken from.
#[derive(Debug)]
pub struct Row<'a> {
    /// The book.
    pub state: &'a State,
    /// The book's currency.
    pub currency: Currency,
    /// Which thing.
    pub id: ThingId,
    /// The thing.
    pub thing: &'a Thing,
    /// The lot that it was bought in, gone or not.
    pub lot: Option<&'a Lot>,
    /// The lots of all things, sorted: as often as there are things in them.
    pub lots: &'a [LotId],
    /// Its share of the lot's price.
    pub paid: Option<Money>,
    /// Its share of the work put into it.
    pub work: Option<Money>,
}

impl Row<'_> {
    pub(super) fn day(&self) -> Option<Day> {
        self.lot?.bought?.day()
    }

    pub(super) fn name(&self) -> Option<String> {
        self.thing.name.clone().or_else(|| self.kind())
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

    pub(super) fn judged(&self, amount: fn(&Expected) -> Option<Money>) -> Cell {
        self.money(self.thing.expected.as_ref().and_then(amount))
    }

    pub(super) fn said(&self) -> Option<&Expected> {
        self.thing.expected.as_ref()
    }

    /// How many things are in its lot.
    pub(super) fn mates(&self) -> Option<usize> {
        let lot = self.thing.lot?;
        let to = |end: &dyn Fn(&LotId) -> bool| self.lots.partition_point(end);
        Some(to(&|one| *one <= lot) - to(&|one| *one < lot))
    }

    pub(super) fn disputed(&self) -> Option<String> {
        let entry = self.state.tables.things.get(&self.id.0)?;
        let fields: Vec<&str> = entry.disputes.keys().map(String::as_str).collect();
        Some(fields.join(" "))
    }
}
