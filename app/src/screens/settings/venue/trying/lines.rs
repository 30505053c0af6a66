//! The lines of a tried sale, and what else is to be said of its price.

use haulwren_core::money::{Currency, Money};
use haulwren_core::view::Tried;

use crate::format;
use crate::ui::el::{El, el};

/// From the price to what is kept, line by line.
pub fn lines(tried: &Tried, currency: Currency) -> El {
    let mut body = el("tbody").with(line("Price", None, tried.settled.price, currency));
    let mut add = |label: &str, working: Option<String>, amount: Money| {
        body = body.clone().with(line(label, working, amount, currency));
    };
    if !tried.posting.paid_in.is_zero() {
        add("Postage, paid by the buyer", None, tried.posting.paid_in);
    }
    for charged in &tried.settled.lines {
        let taken = Money::ZERO.minus(charged.amount);
        add(&charged.label, charged.working(currency), taken);
    }
    let payout = line("The venue pays out", None, tried.settled.payout, currency).class("sum");
    body = body.with(payout);
    let mut add = |label: &str, amount: Money| {
        if !amount.is_zero() {
            let taken = Money::ZERO.minus(amount);
            body = body.clone().with(line(label, None, taken, currency));
        }
    };
    add("Postage", tried.posting.out);
    add("Packing", tried.packing);
    let keep = el("td")
        .class(if tried.keep.is_negative() { "loss" } else { "" })
        .with(format::or_loss(tried.keep, currency));
    let foot = el("tr")
        .with(el("th").attr("scope", "row").with("You keep"))
        .with(keep);
    el("table")
        .class("why-lines")
        .with(
            el("caption")
                .class("hidden")
                .with("Every line of this sale"),
        )
        .with(body)
        .with(el("tfoot").with(foot))
}

fn line(label: &str, working: Option<String>, amount: Money, currency: Currency) -> El {
    let working = working.map(|text| el("small").with(text));
    let head = el("th")
        .attr("scope", "row")
        .with(label)
        .with(" ")
        .with(working);
    el("tr")
        .with(head)
        .with(el("td").with(format::amount(amount, currency)))
}

/// What there is to say besides: prices to skip, charges without a sale, what comes back.
pub fn after(tried: &Tried, currency: Currency) -> Vec<String> {
    let say = |money| format::amount(money, currency);
    let mut all = Vec::new();
    for zone in &tried.skip {
        all.push(format!(
            "Prices to skip: {} to {} pay less than {}.",
            say(zone.from),
            say(zone.to),
            say(zone.better)
        ));
    }
    if !tried.month.is_zero() {
        all.push(format!(
            "Besides, {} each month, whatever sells.",
            say(tried.month)
        ));
    }
    if !tried.unsold.is_zero() {
        all.push(format!(
            "{} is owed though nothing sells.",
            say(tried.unsold)
        ));
    }
    if !tried.back.is_zero() {
        all.push(format!(
            "{} comes back after a cancelled or returned sale.",
            say(tried.back)
        ));
    }
    all
}
