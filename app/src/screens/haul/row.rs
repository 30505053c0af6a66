//! One bought thing in the list: its name, what it sells for and what was paid.

use haulwren_core::book::Word;
use haulwren_core::day::Day;
use haulwren_core::money::Currency;
use haulwren_core::view::{HaulRow, PassedRow};

use crate::format;
use crate::route::Route;
use crate::ui::el::{El, div, el, span};

/// The heading of a day.
pub fn day(day: Day) -> El {
    el("h2").class("haul-day").with(format::day(day))
}

/// The row; it leads to the thing.
pub fn row(row: &HaulRow, currency: Currency) -> El {
    let name = if row.name.is_empty() {
        span("unnamed").with("no name yet")
    } else {
        span("").with(row.name.as_str())
    };
    let verdict = row.expected.as_ref().map(|expected| expected.verdict);
    let marks = [
        (row.paid.is_zero(), "free find"),
        (verdict == Some(Word::Leave), "over the limit"),
        (row.disputed, "needs your choice"),
    ];
    let mut what = span("what").with(name);
    for (is_so, mark) in marks {
        if is_so {
            what = what.with(" ").with(span("mark").with(mark));
        }
    }
    let sells = row
        .sells
        .map(|sells| format!("sells {}", format::amount(sells.likely(), currency)));
    el("a")
        .class("row")
        .attr("href", &Route::Thing(row.id).href())
        .attr("data-thing", &row.id.to_string())
        .with(what)
        .with(span("sells").with(sells))
        .with(span("paid").with(format::amount(row.paid, currency)))
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
