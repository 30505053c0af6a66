//! The haul as a table to take home: one row for each thing, one column for each fact, for any spreadsheet.
//!
//! Under the things come rows for what was spent and is on none of them: things of a lot that are not sorted yet, with what they carry until
//! then; what is not yet shared of a lot, which is below nothing where shares are too much; work on no thing. So `paid` adds up to what was
//! spent, `work` to what all work cost, and `things` to how many were bought. `stands_for` tells the rows apart.
//!
//! Money stands as plain decimals with a point and as many decimals as the currency has, and a loss has a hyphen for its minus; days as
//! ISO 8601 has them. What is not known is left empty. To add a column is to add a line to [`COLUMNS`]; those that are there keep
//! their names. What a person reads comes first, ids last.

mod columns;
mod row;

pub use columns::{COLUMNS, Cell, Column};
pub use row::{Row, Stands};

use super::csv::Csv;
use crate::book::{KeepNow, Sales, State, Thing};
use crate::day::Day;
use crate::id::{LotId, ThingId};
use crate::money::{Currency, Money};

/// The table: the headings, then the things in the order in which they came into the book, then what is on none. With a day, only what was
/// bought on it, and work done on it that is on no thing; with a `mark`, opened by the byte order mark (see [`Csv::new`]). `None` before
/// the book has begun.
#[must_use]
pub fn take_home(state: &State, day: Option<Day>, mark: bool) -> Option<String> {
    let currency = state.currency()?;
    let mut lots: Vec<LotId> = state.things().filter_map(|(_, thing)| thing.lot).collect();
    lots.sort_unstable();
    let nothing = Thing::default();
    let mut csv = Csv::new(mark);
    for column in COLUMNS {
        csv.plain(column.name);
    }
    csv.end_row();
    let mut rows = things(state, currency, &lots);
    rows.extend(on_none(state, currency, &lots, &nothing));
    for row in rows {
        if day.is_some() && row.day() != day {
            continue;
        }
        for column in COLUMNS {
            match (column.cell)(&row) {
                Cell::Words(words) => csv.text(&words),
                Cell::Plain(plain) => csv.plain(&plain),
            }
        }
        csv.end_row();
    }
    Some(csv.finish())
}

fn things<'a>(state: &'a State, currency: Currency, lots: &'a [LotId]) -> Vec<Row<'a>> {
    let work_costs = state.work_costs();
    let sales = Sales::of(state);
    let mut of_lots: Vec<(ThingId, Money, Option<KeepNow>)> = Vec::new();
    for lot in state.lots() {
        let now = sales.of_lot(&lot, &work_costs);
        for ((id, share), now) in lot.things.iter().zip(&lot.split.shares).zip(now) {
            of_lots.push((*id, share.amount, now));
        }
    }
    of_lots.sort_unstable_by_key(|(id, ..)| *id);
    let row = |(id, thing): (_, &'a Thing)| {
        let lot = thing.lot.and_then(|lot| state.tables.lots.get(&lot.0));
        let place = of_lots.binary_search_by_key(&id, |(of, ..)| *of);
        let of_lot = place.ok().map(|place| of_lots[place]);
        Row {
            state,
            currency,
            stands: Stands::Thing(id),
            thing,
            lot_id: thing.lot,
            lot: lot.map(|entry| &entry.value),
            lots,
            paid: of_lot.map(|(_, paid, _)| paid),
            work: work_costs.get(&id).copied(),
            now: of_lot.and_then(|(.., now)| now),
        }
    };
    state.things().map(row).collect()
}

/// What was spent and is on no thing: of each lot what is not sorted yet, then what is not yet shared; then of each bill for work.
fn on_none<'a>(
    state: &'a State,
    currency: Currency,
    lots: &'a [LotId],
    nothing: &'a Thing,
) -> Vec<Row<'a>> {
    let mut rows: Vec<Row<'a>> = Vec::new();
    let mut add = |stands, of: Option<LotId>, paid: Option<Money>, work: Option<Money>| {
        let lot = of.and_then(|lot| state.tables.lots.get(&lot.0));
        rows.push(Row {
            state,
            currency,
            stands,
            thing: nothing,
            lot_id: of,
            lot: lot.map(|entry| &entry.value),
            lots,
            paid,
            work,
            now: None,
        });
    };
    for lot in state.lots() {
        let (id, split) = (Some(lot.id), &lot.split);
        if !split.unsorted.is_empty() {
            let count = Stands::Unsorted(split.unsorted.len());
            add(count, id, Some(split.on_unsorted()), None);
        }
        if !split.not_yet_shared.is_zero() {
            add(Stands::NotShared, id, Some(split.not_yet_shared), None);
        }
    }
    for work in state.works() {
        let on_things: Money = work.shares.iter().map(|(_, share)| share).sum();
        let rest = work.cost.minus(on_things);
        if !rest.is_zero() {
            add(Stands::Work(work.id), None, None, Some(rest));
        }
    }
    rows
}
