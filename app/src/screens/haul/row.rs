//! One bought thing in the list: its name, what it sells for and what was paid.

use haulwren_core::book::{State, Word};
use haulwren_core::day::Day;
use haulwren_core::view::HaulRow;

use crate::format;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, el, span};

/// The heading of a day.
pub fn day(day: Day) -> El {
    el("h2").class("haul-day").with(format::day(day))
}

/// The row; it leads to the thing.
pub fn row(row: &HaulRow) -> El {
    let currency = use_store().read_setup(State::currency);
    let amount = |money| {
        currency
            .map(|currency| format::amount(money, currency))
            .unwrap_or_default()
    };
    let name = if row.name.is_empty() {
        span("unnamed").with("no name yet")
    } else {
        span("").with(row.name.as_str())
    };
    let verdict = row.expected.as_ref().map(|expected| expected.verdict);
    let marks = [
        row.paid.is_zero().then_some("free find"),
        (verdict == Some(Word::Leave)).then_some("over the limit"),
        row.disputed.then_some("needs your choice"),
    ];
    let mark = |mark: &str| [Nodes::from(" "), span("mark").with(mark).into()];
    let marks: Vec<_> = marks.into_iter().flatten().map(mark).collect();
    let sells = row
        .sells
        .map(|sells| format!("sells {}", amount(sells.likely())));
    el("a")
        .class("row")
        .attr("href", &Route::Thing(row.id).href())
        .attr("data-thing", &row.id.to_string())
        .with(span("what").with(name).with(marks))
        .with(span("sells").with(sells))
        .with(span("paid").with(amount(row.paid)))
}
