//! The columns of the haul's table: heading, meaning, unit, and how the cell is taken from a row.

use super::row::Row;
use crate::worth::Sells;

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Words of a person, which may look like a formula.
    Words(String),
    /// What the program writes: a number, a day, a word of its own. Empty for what is not known.
    Plain(String),
}

/// A column of the table.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// Its heading.
    pub name: &'static str,
    /// What it says.
    pub meaning: &'static str,
    /// What its numbers count; empty for words.
    pub unit: &'static str,
    /// The cell of a row.
    pub cell: fn(&Row) -> Cell,
}

/// The columns, in their order.
#[rustfmt::skip] // One line for each.
pub const COLUMNS: &[Column] = &[
    column("day", "day on which it was bought", "ISO 8601", |row| known(row.day())),
    column("thing", "what it is called, else its kind; of a row that is no thing, what it stands for", "", |row| words(row.name())),
    column("kind", "what kind of thing it is", "", |row| words(row.kind())),
    column("paid", "its share of what was paid for its lot, on top included: all rows together are what was spent", "currency", |row| row.money(row.paid)),
    column("work", "what work put into it cost: all rows together are what all work cost", "currency", |row| row.money(row.work)),
    column("sells_likely", "what it likely sells for", "currency", |row| row.sells(Sells::likely)),
    column("keep_now", "what you keep of it as it stands now, the whole cushion set aside", "currency", |row| row.money(row.now.map(|now| now.keep))),
    column("keep_if_sold", "the same if it does sell: nothing set aside for what never sells", "currency", |row| row.money(row.now.map(|now| now.if_sold))),
    column("sells_low", "1 in 10 sell for less; empty where it was not typed", "currency", |row| row.beside_likely(Sells::low)),
    column("sells_high", "1 in 10 sell for more; empty where it was not typed", "currency", |row| row.beside_likely(Sells::high)),
    column("maker", "who made it", "", |row| words(row.thing.maker.clone())),
    column("label", "the size on its label", "", |row| words(row.thing.label.clone())),
    column("colour", "its colour", "", |row| words(row.thing.colour.clone())),
    column("flaw", "what is wrong with it", "", |row| words(row.thing.flaw.clone())),
    column("pieces", "of how many pieces it is, when of more than one", "pieces", |row| known(row.thing.pieces)),
    column("stop", "the stop where it was bought", "", |row| words(row.stop())),
    column("paid_by", "how it was paid for", "", |row| known(row.lot.map(|lot| lot.by.unwrap_or_default().word()))),
    column("kept", "whether it is kept for the trader's own use", "", |row| known(row.id().map(|_| yes_or_no(row.thing.kept == Some(true))))),
    column("verdict", "the verdict when it was bought", "", |row| known(row.said().map(|said| said.verdict.word()))),
    column("ask", "what the seller wanted then", "currency", |row| row.judged(|said| Some(said.ask))),
    column("no_more_than", "the ceiling then; empty when no price was low enough", "currency", |row| row.judged(|said| said.ceiling)),
    column("keep_expected", "what was to be kept of its sale then", "currency", |row| row.judged(|said| Some(said.keep))),
    column("rough", "whether the verdict rested on rough figures", "", |row| known(row.said().map(|said| yes_or_no(said.rough)))),
    column("venue", "the venue that it was judged on", "", |row| words(row.venue())),
    column("postage", "what posting it costs", "currency", |row| row.money(row.thing.postage)),
    column("packing", "what packing it costs", "currency", |row| row.money(row.thing.packing)),
    column("weight", "its own weight, as typed", "", |row| known(row.thing.weight)),
    column("weight_g", "the same, exactly", "g", |row| known(row.thing.weight.map(|weight| weight.grams().normalize()))),
    column("size", "its own size as it is packed, as typed", "", |row| known(row.thing.size)),
    column("stands_for", "what the row is: a thing, things not sorted yet, or money that is on no thing", "", |row| known(Some(row.stands.word()))),
    column("things", "how many things the row is: 1, those not sorted yet, or 0 for money alone", "things", |row| known(Some(row.stands.things()))),
    column("shared", "how its lot's price is shared", "", |row| known(row.lot.map(|lot| lot.method.unwrap_or_default().word()))),
    column("share_fixed", "its share, where it was fixed by hand", "currency", |row| row.money(row.thing.share)),
    column("lot_paid", "what was paid for its whole lot: the same in each of its rows", "currency", |row| row.money(row.lot.and_then(|lot| lot.paid))),
    column("lot_on_top", "what was paid on top of its whole lot's price: the same in each of its rows", "currency", |row| row.money(row.lot.and_then(|lot| lot.extras))),
    column("lot_things", "how many things are in its lot, those not sorted yet included", "things", |row| known(row.mates())),
    column("to_settle", "fields that two devices say differently", "", |row| known(row.disputed())),
    column("currency", "what the money is in", "ISO 4217", |row| known(Some(row.currency))),
    column("lot", "which lot: the same for all that were bought together", "UUID", |row| known(row.lot_id)),
    column("id", "which thing", "UUID", |row| known(row.id())),
];

const fn column(
    name: &'static str,
    meaning: &'static str,
    unit: &'static str,
    cell: fn(&Row) -> Cell,
) -> Column {
    Column {
        name,
        meaning,
        unit,
        cell,
    }
}

fn words(words: Option<String>) -> Cell {
    Cell::Words(words.unwrap_or_default())
}

fn known<T: ToString>(fact: Option<T>) -> Cell {
    Cell::Plain(fact.map(|fact| fact.to_string()).unwrap_or_default())
}

fn yes_or_no(is_so: bool) -> &'static str {
    if is_so { "yes" } else { "no" }
}
