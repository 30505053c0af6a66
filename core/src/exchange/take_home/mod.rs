//! The haul as a table to take home: one row for each thing, one column for each fact, for any spreadsheet.
//!
//! Money stands as plain decimals with a point and as many decimals as the currency has, and a loss has a hyphen for its minus; days as
//! ISO 8601 has them. What is not known is left empty. To add a column is to add a line to [`COLUMNS`]; those that are there keep
//! their names and their order.

mod columns;
mod row;

pub use columns::{COLUMNS, Cell, Column};
pub use row::Row;

use super::csv::Csv;
use crate::book::State;
use crate::day::Day;
use crate::id::LotId;

/// The table: the headings, then the things in the order in which they came into the book. With a day, only what was bought on it; with
/// a `mark`, opened by the byte order mark (see [`Csv::new`]). `None` before the book has begun.
#[must_use]
pub fn take_home(state: &State, day: Option<Day>, mark: bool) -> Option<String> {
    let currency = state.currency()?;
    let (costs, work_costs) = (state.costs(), state.work_costs());
    let mut lots: Vec<LotId> = state.things().filter_map(|(_, thing)| thing.lot).collect();
    lots.sort_unstable();
    let mut csv = Csv::new(mark);
    for column in COLUMNS {
        csv.plain(column.name);
    }
    csv.end_row();
    for (id, thing) in state.things() {
        let lot = thing.lot.and_then(|lot| state.tables.lots.get(&lot.0));
        let row = Row {
            state,
            currency,
            id,
            thing,
            lot: lot.map(|entry| &entry.value),
            lots: &lots,
            paid: costs
                .get(&id)
                .map(|cost| cost.minus(work_costs.get(&id).copied().unwrap_or_default())),
            work: work_costs.get(&id).copied(),
        };
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
