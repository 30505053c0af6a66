//! The pile: things weighed up, one price for all of them, and a rail that adds up what is worth something.

mod keys;
mod list;
mod rail;
mod tray;
mod why;

use crate::live::{Live, settled, worked};
use std::rc::Rc;

use super::last_save::last_save;
use super::page::{cash_left, titled_with};
use super::parts;
use crate::route::Route;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, div, el, span};
use crate::ui::icons::{Icon, sign};
use crate::ui::notice::empty;
use crate::ui::rail::Touched;
use crate::ui::spoken::spoken;
use haulwren_core::view;

/// What is open over the pile.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Opened {
    /// Something of the rail or of the sums.
    Rail(Touched),
    /// What is behind the most to pay for one thing, by its place.
    Thing(usize),
}

/// What belongs to this screen alone.
#[derive(Clone, Copy)]
struct Desk {
    /// What is open over it.
    opened: Live<Option<Opened>>,
    /// Whether a finger holds "Show".
    peeking: Live<bool>,
    /// Why the last key was not taken.
    refused: Live<Option<String>>,
    /// Whether the trader covered the screen, here or on Decide.
    covered: Live<bool>,
    /// Whether all but what was asked is hidden: covered, and not peeked at.
    hides: Live<bool>,
}

/// The screen.
pub fn pile() -> El {
    let store = use_store();
    let peeking = Live::new(false);
    let desk = Desk {
        opened: Live::new(None),
        peeking,
        refused: Live::new(None),
        covered: settled(move || store.draft(|draft| draft.covered)),
        hides: settled(move || store.draft(|draft| draft.covered) && !peeking.get()),
    };
    let is_empty = worked(move || store.pile(|pile| pile.things.is_empty()));
    keys::follow(store, desk);
    let body = move || -> Nodes {
        if is_empty.get() {
            return nothing().into();
        }
        [list::list(desk), list::sums(desk), rail::rail(desk)].into()
    };
    let paid = worked(move || store.has_just_paid());
    el("section")
        .class("pile with-rail")
        .with(div("pile-body").with(head(store, desk)).show(body))
        .show(move || paid.get().then(last_save))
        .show(move || (!is_empty.get()).then(|| tray::tray(desk)))
        .with(spoken(Rc::new(move || verdict_aloud(store, desk))))
        .with(why::why_sheet(desk))
}

/// The way back to Decide, and how many things lie here.
fn head(store: Store, desk: Desk) -> El {
    let title = move || match store.pile(|pile| pile.things.len()) {
        0 => "The pile".to_owned(),
        1 => "The pile, 1 thing".to_owned(),
        count => format!("The pile, {count} things"),
    };
    let back = el("a")
        .class("press")
        .attr("href", &Route::Decide.href())
        .attr("aria-label", "Back to Decide")
        .with(sign(Icon::Back));
    let cash = div("bare").show(move || {
        if desk.hides.get() {
            return None;
        }
        let left = store.read(view::here)?.cash_left;
        Some(cash_left(left, store.currency()?))
    });
    div("pile-head").with(back).with(titled_with(title, cash))
}

/// Nothing lies here.
fn nothing() -> El {
    let line = "Nothing on the pile. Weigh things up, then put them here.";
    div("scroll")
        .with(empty(line, parts::add_thing()))
        .with(div("pile-rows").with(list::put_back()))
        .with(span("hidden").attr("data-verdict", "none"))
}

/// The verdict as it is said aloud; nothing while the seller must not hear it.
fn verdict_aloud(store: Store, desk: Desk) -> String {
    if desk.hides.get() {
        return String::new();
    }
    let said = store.pile_view().with(|view| {
        let view = view.as_ref()?;
        let (verdict, flag) = view.judged.as_ref()?.all.verdict?;
        let second = flag.sentence(view.currency).unwrap_or_default();
        Some(format!("{}. {second}", verdict.word()))
    });
    said.unwrap_or_default()
}
