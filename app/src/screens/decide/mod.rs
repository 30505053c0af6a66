//! Decide: is the thing worth the asking price? The rail and its figures over the tray; one key covers them all.

mod cells;
mod cover;
mod keys;
mod name;
mod top;
mod tray;
mod why;

use leptos::prelude::*;

use crate::store::use_store;
use crate::ui::live::Spoken;
use crate::ui::rail::Touched;

use keys::follow_keyboard;
use top::{Covered, Top};
use tray::Tray;

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
}

/// The screen.
#[component]
pub fn Decide() -> impl IntoView {
    let store = use_store();
    let desk = Desk {
        opened: RwSignal::new(None),
        naming: RwSignal::new(false),
        peeking: RwSignal::new(false),
        refused: RwSignal::new(None),
    };
    follow_keyboard(store, desk);
    let hides = Memo::new(move |_| store.draft(|draft| draft.covered) && !desk.peeking.get());
    let spoken = Signal::derive(move || {
        if hides.get() {
            return String::new();
        }
        store
            .decide_view()
            .with(|view| {
                let view = view.as_ref()?;
                let (verdict, flag) = view.appraisal.judged.as_ref()?.verdict?;
                let second = flag.sentence(view.currency).unwrap_or_default();
                Some(format!("{}. {second}", verdict.word()))
            })
            .unwrap_or_default()
    });
    view! {
        <section class="decide">
            <div class="decide-body">
                {move || if hides.get() { view! { <Covered /> }.into_any() } else { view! { <Top desk /> }.into_any() }}
            </div>
            <Tray desk />
            <Spoken text=spoken />
            <why::WhySheet desk />
            <name::NameSheet desk />
        </section>
    }
}
