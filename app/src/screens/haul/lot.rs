//! A lot: how its price is shared over its things, as five keys, a bar and rows that add up.

use std::rc::Rc;

use haulwren_core::book::{Command, LotCommand, ThingCommand};
use haulwren_core::id::ThingId;
use haulwren_core::lot::Method;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{LotGroup, LotRow};

use super::asked;
use super::bulk::Chosen;
use super::row::{effect, marks, name};
use crate::format;
use crate::route::Route;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div, el, span};
use crate::ui::icons::{Icon, sign};

/// The words of the keys, in the order of the methods.
const WORDS: [(&str, &str); 5] = [
    ("equal", ""),
    ("price", ""),
    ("keep", ""),
    ("weight", ""),
    ("by hand", ""),
];

/// How parts of the bar are filled, over and over.
const FILLS: [&str; 3] = ["solid", "stripes", "blank"];

/// The card of a lot.
pub fn card(lot: &LotGroup, currency: Currency, chosen: Option<Chosen>) -> El {
    let amount = |money| format::amount(money, currency);
    let count = lot.rows.len() + lot.unsorted;
    let title = match lot.name.as_str() {
        "" => format!("Lot of {count}"),
        name => name.to_owned(),
    };
    let title = el("a")
        .class("lot-name")
        .attr("href", &Route::Lot(lot.id).href())
        .with(title);
    let head = div("lot-head").with(title).with(
        span("")
            .with(el("b").with(amount(lot.total)))
            .with(" split by"),
    );
    let rows: Vec<El> = lot
        .rows
        .iter()
        .enumerate()
        .map(|(at, row)| lot_row(lot, at, row, currency, chosen))
        .collect();
    el("section")
        .class("lot-card")
        .attr("data-lot", &lot.id.to_string())
        .with(head)
        .with(split(lot))
        .with(bar(lot))
        .with(rows)
        .with(unsorted(lot, currency))
        .with(foot(lot, currency))
}

fn split(lot: &LotGroup) -> Nodes {
    let (store, id, method) = (use_store(), lot.id, lot.method);
    let at = Method::ALL.iter().position(|one| *one == method);
    let chosen: Now<usize> = Rc::new(move || at.unwrap_or_default());
    let choose: Do<usize> = Rc::new(move |at: usize| {
        let method = Method::ALL[at];
        store.dispatch(LotCommand::SetMethod { lot: id, method }.into(), |_| {});
    });
    let name = format!("split-{id}");
    let keys =
        choice_keys("Split by", &name, false, &WORDS, &chosen, &choose).class("choice split");
    let falls_back = (lot.method != lot.shared_by).then(|| {
        let why = match lot.method {
            Method::ByWeight => "Shared evenly until each thing\u{2019}s weight is known.",
            Method::ByKeep => "Shared evenly until each thing was judged.",
            _ => "Shared evenly until each thing\u{2019}s price is known.",
        };
        parts::support(why)
    });
    [Some(keys), falls_back]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .into()
}

/// The shares as parts of one bar. The rows say the same.
fn bar(lot: &LotGroup) -> El {
    let mut bar = div("split-bar").attr("aria-hidden", "true");
    for (at, row) in lot.rows.iter().enumerate() {
        // A part of nothing would still have its edge.
        if row.share.amount.is_zero() {
            continue;
        }
        let part = el("i").class(FILLS[at % FILLS.len()]);
        part.set_style("flex-grow", &row.share.amount.minor().max(0).to_string());
        bar = bar.with(part);
    }
    let rest = lot.on_unsorted.plus(lot.not_yet_shared).minor().max(0);
    let part = el("i").class("open");
    part.set_style("flex-grow", &rest.to_string());
    bar.with(part)
}

fn lot_row(
    lot: &LotGroup,
    at: usize,
    row: &LotRow,
    currency: Currency,
    chosen: Option<Chosen>,
) -> El {
    let (id, named) = (row.row.id, row.row.name.clone());
    let tick = chosen.map(|chosen| div("bare").show(move || chosen.tick_box(id, &named)));
    let amount = |money| format::amount(money, currency);
    let by_hand = lot.method == Method::ByHand || row.share.fixed;
    let sells = row
        .row
        .sells
        .map(|sells| format!("sells {}", amount(sells.likely())));
    let what = el("a")
        .class("what")
        .attr("href", &Route::Thing(row.row.id).href())
        .with(name(&row.row.name))
        .with(marks(&row.row, lot.total.is_zero()))
        .with(effect(&row.row));
    let share = amount(row.share.amount);
    let share = if by_hand {
        let (thing, now) = (row.row.id, row.share.amount);
        let label = format!("Share of {}, {share}", row.row.name);
        button("press share")
            .attr("aria-label", &label)
            .on_click(move || fix_share(thing, now))
            .with(share)
    } else {
        span("paid").with(share)
    };
    let short = row.short.as_ref().map(|(postage, venue)| {
        let said = format!(
            "can\u{2019}t pay its own postage, {} on {venue}",
            amount(*postage)
        );
        el("p").class("short").with(said)
    });
    div("lot-row")
        .attr("data-thing", &row.row.id.to_string())
        .with(
            div("row")
                .with(tick)
                .with(
                    el("i")
                        .class(["swatch solid", "swatch stripes", "swatch blank"][at % 3])
                        .attr("aria-hidden", "true"),
                )
                .with(what)
                .with(span("sells").with(sells))
                .with(share),
        )
        .with(short)
}

fn fix_share(thing: ThingId, now: Money) {
    let store = use_store();
    asked::money("Its share of the price", "Share", Some(now), move |share| {
        let share = Some(share);
        store.dispatch(ThingCommand::FixShare { thing, share }.into(), |_| {});
    });
}

fn unsorted(lot: &LotGroup, currency: Currency) -> Option<El> {
    (lot.unsorted > 0).then(|| {
        let word = format!("{} not sorted yet", lot.unsorted);
        el("a")
            .class("row")
            .attr("href", &Route::Lot(lot.id).href())
            .with(
                span("what")
                    .with(word)
                    .with(" ")
                    .with(span("mark").with("sort at home")),
            )
            .with(span("paid").with(format::amount(lot.on_unsorted, currency)))
    })
}

/// Who got the spare cents, and that it adds up; or what is missing, with a key that mends it.
fn foot(lot: &LotGroup, currency: Currency) -> El {
    let spares = lot.spare.len();
    let names: Vec<&str> = lot
        .rows
        .iter()
        .filter(|row| lot.spare.contains(&row.row.id))
        .map(|row| row.row.name.as_str())
        .collect();
    let said = match spares {
        0 => String::new(),
        1 => format!("1 spare cent: {}", names.join(", ")),
        spares => format!("{spares} spare cents: {}", names.join(", ")),
    };
    let foot = div("lot-foot")
        .attr("role", "status")
        .with(span("support").with(said));
    let total = format::amount(lot.total, currency);
    if lot.not_yet_shared.is_zero() {
        return foot.with(
            span("adds-up")
                .with(sign(Icon::Tick))
                .with("adds up to ")
                .with(el("b").with(total)),
        );
    }
    let said = off(lot.not_yet_shared, currency);
    let mend = mend(lot).map(|(thing, share)| {
        let (store, share) = (use_store(), Some(share));
        button("press")
            .on_click(move || {
                let command: Command = ThingCommand::FixShare { thing, share }.into();
                store.dispatch(command, |_| {});
            })
            .with("Fix last")
    });
    foot.with(span("adds-up loss").with(said)).with(mend)
}

/// By how much shares don't add up, in words.
pub fn off(rest: Money, currency: Currency) -> String {
    if rest.is_negative() {
        format!("{} over", format::amount(rest.abs(), currency))
    } else {
        format!("{} not yet shared", format::amount(rest, currency))
    }
}

/// What the last thing has to carry for the shares to add up. None when it can't: no share is below nothing.
pub fn mend(lot: &LotGroup) -> Option<(ThingId, Money)> {
    let last = lot.rows.last()?;
    let share = last.share.amount.plus(lot.not_yet_shared);
    (!share.is_negative()).then_some((last.row.id, share))
}
