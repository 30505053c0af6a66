//! What the screens ask of the page around them: whether there is a network, whether the window is wide, and the strip.

use super::parts;
use crate::format;
use crate::late;
use crate::live::{Live, worked};
use crate::route::Route;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{self, StopHead};
use leptos::prelude::*;

use crate::shell::scope;
use crate::store::{Standing, use_store};
use crate::ui::el::{El, Nodes, button, div, el, on_window, span};
use crate::ui::icons::Icon;
use crate::ui::strip::strip;

#[derive(Clone, Copy)]
struct Around {
    offline: Live<bool>,
    wide: Live<bool>,
}

/// From this width on there is room beside the list, or beside the keypad. The style sheets turn at the same width.
const WIDE: &str = "(min-width: 900px)";

/// Follows the page from now on.
pub fn follow() {
    let is_wide = || {
        window()
            .match_media(WIDE)
            .ok()
            .flatten()
            .is_some_and(|query| query.matches())
    };
    let is_offline = || !window().navigator().on_line();
    let offline = Live::new(is_offline());
    let wide = Live::new(is_wide());
    for event in ["online", "offline"] {
        on_window(event, move |_| offline.set(is_offline()));
    }
    on_window("resize", move |_| {
        if wide.get_untracked() != is_wide() {
            wide.set(is_wide());
        }
    });
    provide_context(Around { offline, wide });
}

/// Whether the window is wide.
pub fn use_wide() -> Live<bool> {
    expect_context::<Around>().wide
}

/// The strip over a screen, with a title that follows signals.
pub fn titled(title: impl Fn() -> String + 'static) -> El {
    titled_with(title, ())
}

/// The strip over Decide: where the trader is, and what is left in the purse; off a trip the title.
pub fn titled_here(title: &'static str) -> El {
    let store = use_store();
    let here = worked(move || store.read(view::here));
    let where_one_is = move || {
        here.with(|here| {
            let stop = here.as_ref().and_then(|here| here.stop.as_ref());
            stop.map_or_else(|| title.to_owned(), StopHead::title)
        })
    };
    let cash = move || {
        here.with(|here| {
            let left = here.as_ref()?.cash_left;
            Some(cash_left(left, store.currency()?))
        })
    };
    strip_of(where_one_is, div("bare").show(cash).into())
}

/// What is left in the purse, for the right end of the strip; the way to Haul.
pub fn cash_left(left: Money, currency: Currency) -> El {
    let amount = el("b")
        .class(if left.is_negative() { "loss" } else { "" })
        .attr("data-cash-left", "")
        .with(format::or_loss(left, currency));
    el("a")
        .class("cash-left")
        .attr("href", &Route::Haul.href())
        .with(span("support").with("Cash left"))
        .with(" ")
        .with(amount)
}

/// The same with something at the right.
pub fn titled_with(title: impl Fn() -> String + 'static, aside: impl Into<Nodes>) -> El {
    let standing = use_store().standing();
    let save = move || {
        let is_due = standing.with(|standing| matches!(standing, Standing::Due(_)));
        is_due.then(|| parts::link("press", Route::Settings, Icon::Save, "Save copy"))
    };
    strip_of(title, [aside.into(), div("bare").show(save).into()].into())
}

fn strip_of(title: impl Fn() -> String + 'static, aside: Nodes) -> El {
    let is_sample = scope::is_sample();
    let leave = is_sample.then(|| {
        button("press")
            .attr("data-leave-sample", "")
            .on_click(|| late::then(|further, store| (further.turn_to_sample)(store, false)))
            .with("Leave")
    });
    // Stands on every screen until a copy has left.
    let standing = use_store().standing();
    let save = move || {
        let wants = standing.with(Standing::wants_copy);
        wants.then(|| {
            button("press strong")
                .attr("data-save-now", "")
                .on_click(save_copy)
                .with("Save copy")
        })
    };
    let aside = [aside, leave.into(), div("bare").show(save).into()].into();
    let offline = expect_context::<Around>().offline;
    let trouble = worked(move || standing.with(|standing| standing.trouble().to_owned()));
    strip(title, offline, is_sample, trouble, aside)
}

/// Writes the book to a file and hands it out.
pub fn save_copy() {
    late::then(|further, store| (further.save_copy)(store));
}
