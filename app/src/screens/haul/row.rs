//! One bought thing in the list: its name, what it sells for and what was paid. And one that was passed by.

use haulwren_core::day::Day;
use haulwren_core::ledger::Paying;
use haulwren_core::money::Currency;
use haulwren_core::view::{Effect, HaulRow, LotGroup, PassedRow};

use crate::format;
use crate::route::Route;
use crate::screens::brought::effect_mark;
use crate::store::effect_on;
use crate::ui::el::{El, Nodes, div, el, span};

/// The heading of a day.
pub fn day(day: Option<Day>) -> El {
    let word = day.map_or_else(|| "Some day".to_owned(), format::day);
    el("h2").class("haul-day").with(word)
}

/// A thing's name, or that it has none.
pub fn name(name: &str) -> El {
    if name.is_empty() {
        span("unnamed").with("no name yet")
    } else {
        span("").with(name)
    }
}

/// What is to be known of it at a glance; `free` says whether it may have come for nothing: a thing of a lot that was paid for did not, even
/// while its share is nothing.
pub fn marks(row: &HaulRow, free: bool) -> Nodes {
    // Of a lot it is the share that counts, and not what was asked for the thing alone.
    let is_over = row.expected.as_ref().is_some_and(|expected| {
        let ceiling = expected.ceiling;
        ceiling.is_none_or(|ceiling| row.paid > ceiling) && !row.paid.is_zero()
    });
    let pieces = row.pieces.map(|pieces| match pieces {
        2 => "pair".to_owned(),
        pieces => format!("set of {pieces}"),
    });
    let marks = [
        (free && row.paid.is_zero() && !row.kept, "free find"),
        (row.by == Paying::Other, "other"),
        (row.kept, "kept"),
        (is_over, "over the limit"),
    ];
    let mut all: Vec<El> = Vec::new();
    let mut add = |mark: &str| {
        all.push(span("").with(" ").with(span("mark").with(mark)));
    };
    if let Some(pieces) = &pieces {
        add(pieces);
    }
    for (is_so, mark) in marks {
        if is_so {
            add(mark);
        }
    }
    all.into()
}

/// That something about a thing waits for a choice; else what the last file did to it, until that is put away.
pub fn effect(row: &HaulRow) -> Option<El> {
    let effect = match effect_on(row.id.0) {
        _ if row.disputed => Effect::Choose,
        // Chosen since.
        Some(Effect::Choose) => Effect::Changed,
        brought => brought?,
    };
    Some(span("").with(" ").with(effect_mark(effect)))
}

/// The row; it leads to the thing.
pub fn row(row: &HaulRow, currency: Currency) -> El {
    let sells = row
        .sells
        .map(|sells| format!("sells {}", format::amount(sells.likely(), currency)));
    el("a")
        .class("row")
        .attr("href", &Route::Thing(row.id).href())
        .attr("data-thing", &row.id.to_string())
        .with(
            span("what")
                .with(name(&row.name))
                .with(marks(row, true))
                .with(effect(row)),
        )
        .with(span("sells").with(sells))
        .with(span("paid").with(format::amount(row.paid, currency)))
}

/// A lot in one line; it leads to the lot.
pub fn lot(lot: &LotGroup, currency: Currency) -> El {
    let amount = format::amount(lot.total, currency);
    let (word, mark) = match (lot.name.as_str(), lot.rows.len(), lot.unsorted) {
        (name, 0, 0) => (name.to_owned(), Some("not yet shared")),
        (_, 0, count) => (format!("{count} things for {amount}"), Some("sort at home")),
        ("", things, 0) => (format!("Lot of {things}"), None),
        ("", things, unsorted) => (
            format!("Lot of {}", things + unsorted),
            Some("sort at home"),
        ),
        (name, _, 0) => (name.to_owned(), None),
        (name, ..) => (name.to_owned(), Some("sort at home")),
    };
    let marks = [mark, (lot.by == Paying::Other).then_some("other")];
    let mut what = span("what").with(word);
    for mark in marks.into_iter().flatten() {
        what = what.with(" ").with(span("mark").with(mark));
    }
    el("a")
        .class("row")
        .attr("href", &Route::Lot(lot.id).href())
        .attr("data-lot", &lot.id.to_string())
        .with(what)
        .with(span("paid").with(amount))
}

/// A thing that was passed by.
pub fn passed(row: &PassedRow, currency: Currency) -> El {
    let name = if row.name.is_empty() {
        span("unnamed").with("no name")
    } else {
        span("").with(row.name.as_str())
    };
    let word = row
        .expected
        .as_ref()
        .map(|expected| expected.verdict.word());
    let asked = row
        .ask
        .map(|ask| format!("asked {}", format::amount(ask, currency)));
    div("row")
        .attr("data-passed", "")
        .with(span("what").with(name))
        .with(span("sells").with(word))
        .with(span("paid").with(asked))
}
