//! The head of Haul: the stop where the trader is, what the trip comes to, and the purse.

use haulwren_core::ledger::Purse;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{HaulSums, HaulView, TripHead};

use super::asked;
use super::sums::sum;
use crate::format;
use crate::route::Route;
use crate::screens::{page, parts};
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::icons::Icon;

/// The head.
pub fn head(view: &HaulView) -> Nodes {
    match &view.trip {
        Some(trip) => trip_head(trip, view.currency),
        None => [no_trip(), totals(&view.sums, view.currency)].into(),
    }
}

/// No trip is under way, and how to start one.
pub fn no_trip() -> El {
    let start = button("press")
        .attr("data-start-trip", "")
        .on_click(asked::start_trip)
        .with("Start a trip");
    div("stop-head")
        .with(el("p").with("No trip under way."))
        .with(start)
}

fn trip_head(trip: &TripHead, currency: Currency) -> Nodes {
    let whole = el("p").class("support of-trip").with("The whole trip");
    [
        where_one_is(trip),
        whole,
        totals(&trip.sums, currency),
        cash(trip, currency),
    ]
    .into()
}

fn where_one_is(trip: &TripHead) -> El {
    let Some(stop) = trip.stop.as_ref().filter(|_| trip.open) else {
        let (word, next) = if trip.open {
            ("Under way, between two sales.", None)
        } else {
            let start = button("press")
                .attr("data-start-trip", "")
                .on_click(asked::start_trip)
                .with("Start a trip");
            ("The last trip has ended.", Some(start))
        };
        let link = el("a")
            .class("stop-name")
            .attr("href", &Route::Trip(trip.id).href())
            .with("The trip");
        let words = div("what")
            .with(el("p").class("support").with(word))
            .with(link);
        return div("stop-head").with(words).with(next);
    };
    let said = format!("Stop {}, {}", stop.number, stop.manner.sentence());
    let name = el("a")
        .class("stop-name")
        .attr("href", &Route::Stop(stop.id).href())
        .attr("data-stop", &stop.id.to_string())
        .with(stop.title());
    let words = div("what")
        .with(el("p").class("support").with(said))
        .with(name);
    let arrived = stop.arrived.map(|at| {
        div("arrived")
            .with(el("span").class("support").with("arrived"))
            .with(" ")
            .with(el("b").with(format::time(at)))
    });
    div("stop-head").with(words).with(arrived)
}

/// Spent, things, and what is kept of them now: if all sell, and with the cushion; beside it what is not in that.
pub fn totals(sums: &HaulSums, currency: Currency) -> El {
    let loss =
        |word: &str, money: Money| sum(word, format::or_loss(money, currency), money.is_negative());
    let mut without: Vec<String> = Vec::new();
    if sums.unsorted > 0 {
        without.push(format!("without the {} unsorted", sums.unsorted));
    }
    if sums.no_estimate > 0 {
        without.push(format!("{} with no estimate yet", sums.no_estimate));
    }
    if !sums.not_yet_shared.is_zero() {
        let amount = format::amount(sums.not_yet_shared, currency);
        without.push(format!("{amount} not yet shared"));
    }
    let without = (!without.is_empty()).then(|| {
        let lines = without.join(", ");
        div("support")
            .with(el("dt").class("hidden").with("Not counted"))
            .with(el("dd").class("plain").with(lines))
    });
    el("dl")
        .class("haul-sums")
        .with(sum("Spent", format::amount(sums.spent, currency), false))
        .with(sum("Things", sums.things.to_string(), false))
        .with(loss("If all sell, you keep", sums.if_sold))
        .with(loss("If some never sell", sums.keep))
        .with(without)
}

/// What is spent of the cash, as words and as a bar; the way to the purse.
fn cash(trip: &TripHead, currency: Currency) -> El {
    let purse = &trip.purse;
    let amount = |money| format::amount(money, currency);
    let mut words = el("p")
        .with("Cash ")
        .with(el("b").with(amount(purse.spent_cash)));
    if !purse.took_out.is_zero() {
        words = words.with(" of ").with(amount(purse.took_out));
    }
    // What is in it by all that was said, a count included: "31.00 of 80.00" alone would leave out what was missing when it was counted.
    if !purse.took_out.is_zero() || !purse.counted.is_zero() {
        words = words
            .with(", ")
            .with(el("b").with(format::or_loss(purse.left(), currency)))
            .with(" left");
    }
    if !purse.spent_other.is_zero() {
        words = words
            .with(", other ")
            .with(el("b").with(amount(purse.spent_other)));
    }
    let bar = spent_part(purse).map(|percent| {
        let part = el("i");
        part.set_style("width", &format!("{percent}%"));
        div("cash-bar").attr("aria-hidden", "true").with(part)
    });
    let count = button("press")
        .attr("data-purse", "")
        .on_click(asked::purse)
        .with("Count cash");
    div("cash-line")
        .with(div("what").with(words).with(bar))
        .with(count)
}

/// How much of what was taken out is spent, in whole percent for the bar.
fn spent_part(purse: &Purse) -> Option<i64> {
    let (spent, of) = (purse.spent_cash.minor(), purse.took_out.minor());
    (of > 0).then(|| (spent.max(0).saturating_mul(100) / of).min(100))
}

/// The cash that should be left, at the right of the strip.
pub fn cash_left(view: &HaulView) -> Option<El> {
    let trip = view.trip.as_ref().filter(|trip| trip.open)?;
    Some(page::cash_left(trip.purse.left(), view.currency))
}

/// The way to everything about trips, and to taking things home.
pub fn ways() -> El {
    div("pair keys-row")
        .with(parts::link("press", Route::Trips, Icon::Next, "Trips"))
        .with(parts::link(
            "press",
            Route::TakeHome,
            Icon::Save,
            "Take home",
        ))
}
