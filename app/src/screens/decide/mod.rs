//! Decide: is the thing worth the asking price? The rail and its figures over the tray; one key covers them all.

mod cells;
mod cover;
mod keys;
mod name;
mod top;
mod tray;
mod venues;
mod why;

use crate::follow::follow;
use crate::live::{Live, settled};
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use haulwren_core::view::{DecideDraft, DecideView};

use leptos::prelude::set_timeout;

use crate::store::{Store, use_store};
use crate::ui::el::{El, div, el};
use crate::ui::rail::Touched;
use crate::ui::spoken::spoken;

pub use cover::key as cover_key;
pub use keys::{is_on_sheet, key_of};
pub use tray::tone;
pub use why::title_of;

/// What belongs to this screen alone, and to no book: what is open over it, and what the keypad has just refused.
#[derive(Clone, Copy)]
struct Desk {
    /// What of the rail is open.
    opened: Live<Option<Touched>>,
    /// Whether the name is being typed.
    naming: Live<bool>,
    /// Whether a finger holds "Show".
    peeking: Live<bool>,
    /// Why the last key was not taken.
    refused: Live<Option<String>>,
    /// Whether the trader covered the screen.
    covered: Live<bool>,
    /// Whether everything but the asking price is hidden: covered, and not peeked at.
    hides: Live<bool>,
    /// Whether nothing is typed.
    is_idle: Live<bool>,
    /// Whether there is enough for the sums.
    has_sums: Live<bool>,
    /// Whether the last save is young enough to be shown with its Undo.
    shows_save: Live<bool>,
}

/// The screen.
pub fn decide() -> El {
    let store = use_store();
    let peeking = Live::new(false);
    let covered = settled(move || store.draft(|draft| draft.covered));
    let desk = Desk {
        opened: Live::new(None),
        naming: Live::new(false),
        peeking,
        refused: Live::new(None),
        covered,
        hides: settled(move || covered.get() && !peeking.get()),
        is_idle: settled(move || store.draft(DecideDraft::is_empty)),
        shows_save: shows_save(store),
        has_sums: settled(move || {
            let judged = |view: &DecideView| view.appraisal.judged.is_some();
            store
                .decide_view()
                .with(|view| view.as_ref().is_some_and(judged))
        }),
    };
    keys::follow(store, desk);
    let body = move || {
        if desk.hides.get() {
            top::covered()
        } else {
            top::top(desk)
        }
    };
    el("section")
        .class("decide with-rail")
        .with(div("decide-body").show(body))
        .with(tray::tray(desk))
        .with(spoken(Rc::new(move || verdict_aloud(store, desk))))
        .with(why::why_sheet(desk))
        .with(name::name_sheet(desk))
}

/// How long the last save is shown with its Undo; then Haul has it.
const SHOWN: Duration = Duration::from_secs(15);

/// Whether the last save is young enough: it goes after some seconds, so that what is under it is in sight again.
fn shows_save(store: Store) -> Live<bool> {
    let shows = Live::new(true);
    let last = Rc::new(Cell::new(None));
    follow(Box::new(move || {
        let save = store.done.with(|done| done.as_ref().map(|done| done.save));
        last.set(save);
        shows.set(true);
        let last = last.clone();
        let leave = move || {
            // The screen may have gone, or something else been saved.
            if last.get() == save && !shows.is_gone() {
                shows.set(false);
            }
        };
        set_timeout(leave, SHOWN);
    }));
    shows
}

/// The verdict as it is said aloud; nothing while the seller must not hear it.
fn verdict_aloud(store: Store, desk: Desk) -> String {
    if desk.hides.get() {
        return String::new();
    }
    let said = store.decide_view().with(|view| {
        let view = view.as_ref()?;
        let (verdict, _) = view.appraisal.judged.as_ref()?.verdict?;
        let second = view.second().unwrap_or_default();
        Some(format!("{}. {second}", verdict.word()))
    });
    said.unwrap_or_default()
}
