//! Decide: is the thing worth the asking price? The rail and its figures over the tray; one key covers them all.

mod cells;
mod cover;
mod keys;
mod name;
mod top;
mod tray;
mod venues;
mod why;

use std::rc::Rc;

use leptos::prelude::*;

use crate::store::{Store, use_store};
use crate::ui::el::{El, div, el, memo};
use crate::ui::live::spoken;
use crate::ui::rail::Touched;

/// What belongs to this screen alone, and to no book: what is open over it, and what the keypad has just refused.
#[derive(Clone, Copy)]
struct Desk {
    /// What of the rail is open.
    opened: RwSignal<Option<Touched>>,
    /// Whether the name is being typed.
    naming: RwSignal<bool>,
    /// Whether a finger holds "Show".
    peeking: RwSignal<bool>,
    /// Why the last key was not taken.
    refused: RwSignal<Option<String>>,
    /// Whether the trader covered the screen.
    covered: Memo<bool>,
    /// Whether everything but the asking price is hidden: covered, and not peeked at.
    hides: Memo<bool>,
}

/// The screen.
pub fn decide() -> El {
    let store = use_store();
    let peeking = RwSignal::new(false);
    let desk = Desk {
        opened: RwSignal::new(None),
        naming: RwSignal::new(false),
        peeking,
        refused: RwSignal::new(None),
        covered: memo(move || store.draft(|draft| draft.covered)),
        hides: memo(move || store.draft(|draft| draft.covered) && !peeking.get()),
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
        .class("decide")
        .with(div("decide-body").show(body))
        .with(tray::tray(desk))
        .with(spoken(Rc::new(move || verdict_aloud(store, desk))))
        .with(why::why_sheet(desk))
        .with(name::name_sheet(desk))
}

/// The verdict as it is said aloud; nothing while the seller must not hear it.
fn verdict_aloud(store: Store, desk: Desk) -> String {
    if desk.hides.get() {
        return String::new();
    }
    let said = store.decide_view().with(|view| {
        let view = view.as_ref()?;
        let (verdict, flag) = view.appraisal.judged.as_ref()?.verdict?;
        let second = flag.sentence(view.currency).unwrap_or_default();
        Some(format!("{}. {second}", verdict.word()))
    });
    said.unwrap_or_default()
}
