//! The lines behind a figure, and the reasons behind a verdict.

use haulwren_core::appraise::{Reason, Why};
use haulwren_core::money::{Currency, Money};

use super::el::{El, el};
use crate::format;

/// The lines that made a figure, and their sum.
pub fn why_lines(lines: &[Why], total_word: &str, total: Money, currency: Currency) -> El {
    let row = |line: &Why| {
        let working = line.working(currency).map(|text| el("small").with(text));
        let head = el("th")
            .attr("scope", "row")
            .with(line.label())
            .with(" ")
            .with(working);
        el("tr")
            .with(head)
            .with(el("td").with(format::amount(line.amount, currency)))
    };
    let sum = el("td")
        .class(if total.is_negative() { "loss" } else { "" })
        .with(format::or_loss(total, currency));
    let foot = el("tr")
        .with(el("th").attr("scope", "row").with(total_word))
        .with(sum);
    el("table")
        .class("why-lines")
        .with(el("tbody").with(lines.iter().map(row).collect::<Vec<_>>()))
        .with(el("tfoot").with(foot))
}

/// The reasons of a verdict, the deciding one last and bold.
pub fn reasons(reasons: &[Reason], currency: Currency) -> El {
    let last = reasons.len().saturating_sub(1);
    let row = |(at, reason): (usize, &Reason)| {
        el("li")
            .class(if at == last { "deciding" } else { "" })
            .with(reason.sentence(currency))
    };
    el("ul")
        .class("reasons")
        .with(reasons.iter().enumerate().map(row).collect::<Vec<_>>())
}
