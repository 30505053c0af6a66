//! The lines behind a figure, and the reasons behind a verdict.

use haulwren_core::appraise::{Reason, Why};
use haulwren_core::money::{Currency, Money};
use leptos::prelude::*;

use crate::format;

/// The lines that made a figure, and their sum.
#[component]
pub fn WhyLines(
    /// The lines; they add up to the total.
    lines: Vec<Why>,
    /// What the sum is called.
    total_word: String,
    /// The sum.
    total: Money,
    /// The book's currency.
    currency: Currency,
) -> impl IntoView {
    let is_loss = total.is_negative();
    let rows = lines
        .into_iter()
        .map(|line| {
            let working = line
                .working(currency)
                .map(|text| view! { <small>{text}</small> });
            view! {
                <tr>
                    <th scope="row">{line.label().to_owned()} {working}</th>
                    <td>{format::amount(line.amount, currency)}</td>
                </tr>
            }
        })
        .collect_view();
    view! {
        <table class="why-lines">
            <tbody>{rows}</tbody>
            <tfoot>
                <tr>
                    <th scope="row">{total_word}</th>
                    <td class:loss=is_loss>{format::or_loss(total, currency)}</td>
                </tr>
            </tfoot>
        </table>
    }
}

/// The reasons of a verdict, the deciding one last and bold.
#[component]
pub fn Reasons(
    /// The reasons.
    reasons: Vec<Reason>,
    /// The book's currency.
    currency: Currency,
) -> impl IntoView {
    let last = reasons.len().saturating_sub(1);
    let row = move |(at, reason): (usize, Reason)| {
        view! { <li class:deciding=at == last>{reason.sentence(currency)}</li> }
    };
    view! { <ul class="reasons">{reasons.into_iter().enumerate().map(row).collect_view()}</ul> }
}
