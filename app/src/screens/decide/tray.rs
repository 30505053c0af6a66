//! The tray: name, reasons and cover over the keypad.

use haulwren_core::view::{Field, Press, half_key};
use leptos::prelude::*;

use super::Desk;
use super::cover::CoverKey;
use crate::format;
use crate::store::{Store, use_store};
use crate::ui::icons::{Icon, Sign};
use crate::ui::keypad::{Key, Keypad};
use crate::ui::rail::Touched;

/// Types a key, or says why it was not taken. Covered, only the asking price is typed.
pub fn type_key(store: Store, desk: Desk, key: Key) {
    let press = match key {
        Key::Digit(digit) => Press::Digit(digit),
        Key::Point => Press::Point,
        Key::Half => Press::Half,
        Key::Rub => Press::RubOut,
        Key::Clear => Press::Clear,
        Key::Next => {
            desk.refused.set(None);
            return store.edit_draft(|draft| draft.go(draft.focus.next()));
        }
        Key::Buy => return store.buy(),
    };
    let Some(currency) = store.read_setup(haulwren_core::book::State::currency) else {
        return;
    };
    let taken = store.edit_draft(|draft| {
        if draft.covered && draft.focus != Field::Ask {
            draft.go(Field::Ask);
        }
        draft.press(press, currency)
    });
    desk.refused.set(taken.err().map(|error| error.to_string()));
}

/// The tray.
#[component]
pub fn Tray(desk: Desk) -> impl IntoView {
    let store = use_store();
    let view = store.decide_view();
    let covered = Memo::new(move |_| store.draft(|draft| draft.covered));
    let currency = Memo::new(move |_| store.read_setup(haulwren_core::book::State::currency));
    let half = Signal::derive(move || currency.get().map(half_key).unwrap_or_default());
    let has_point = Signal::derive(move || {
        currency
            .get()
            .is_some_and(|currency| currency.exponent() > 0)
    });
    let can_buy = Signal::derive(move || {
        view.with(|view| view.as_ref().is_some_and(|view| view.buy.is_some()))
    });
    let sum = Signal::derive(move || {
        view.with(|view| {
            let view = view.as_ref()?;
            let ask = view.buy?;
            let line = if ask.is_zero() { "free find" } else { "" };
            Some((format::amount(ask, view.currency), line.to_owned()))
        })
        .unwrap_or_default()
    });
    let name = Memo::new(move |_| store.draft(|draft| draft.name.clone()));
    let has_verdict = Memo::new(move |_| {
        view.with(|view| {
            view.as_ref()
                .is_some_and(|view| view.appraisal.judged.is_some())
        })
    });
    let head = move || {
        (!covered.get()).then(|| {
            view! {
                <button type="button" class="press name-key" data-key="name" on:click=move |_| desk.naming.set(true)>
                    <Sign icon=Icon::Tag />
                    {move || {
                        name.with(|name| {
                            if name.is_empty() {
                                view! { <span class="unnamed">"Name it, or not"</span> }.into_any()
                            } else {
                                view! { <span>{name.clone()}</span> }.into_any()
                            }
                        })
                    }}
                </button>
                <button
                    type="button"
                    class="press"
                    data-key="why"
                    disabled=move || !has_verdict.get()
                    on:click=move |_| desk.opened.set(Some(Touched::Verdict))
                >
                    "Why"
                </button>
            }
        })
    };
    view! {
        <div class="tray">
            <div class="tray-head">{head} <CoverKey desk /></div>
            <Keypad on_key=move |key| type_key(store, desk, key) covered half has_point can_buy sum />
        </div>
    }
}
