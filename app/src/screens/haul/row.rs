//! One bought thing in the list: its name, what it sells for and what was paid.

use haulwren_core::book::Word;
use leptos::prelude::*;

use super::Listed;
use crate::format;
use crate::route::Route;
use crate::store::use_store;

/// The row; it leads to the thing.
pub fn show(listed: Listed) -> impl IntoView {
    let Listed { day, row } = listed;
    let currency = use_store().read_setup(haulwren_core::book::State::currency);
    let amount = |money| {
        currency
            .map(|currency| format::amount(money, currency))
            .unwrap_or_default()
    };
    let name = if row.name.is_empty() {
        view! { <span class="unnamed">"no name yet"</span> }.into_any()
    } else {
        view! { <span>{row.name.clone()}</span> }.into_any()
    };
    let verdict = row.expected.as_ref().map(|expected| expected.verdict);
    let marks = [
        row.paid.is_zero().then_some("free find"),
        (verdict == Some(Word::Leave)).then_some("over the limit"),
        row.disputed.then_some("needs your choice"),
    ];
    let marks = marks
        .into_iter()
        .flatten()
        .map(|mark| view! { " "<span class="mark">{mark}</span> })
        .collect_view();
    let sells = row
        .sells
        .map(|sells| format!("sells {}", amount(sells.likely())));
    view! {
        {day.map(|day| view! { <h2 class="haul-day">{format::day(day)}</h2> })}
        <a class="row" href=Route::Thing(row.id).href() data-thing=row.id.to_string()>
            <span class="what">{name} {marks}</span>
            <span class="sells">{sells}</span>
            <span class="paid">{amount(row.paid)}</span>
        </a>
    }
}
