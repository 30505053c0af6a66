//! The tray: name, reasons and cover over the keypad; on a wide window the lines of what is kept stand over them.

use haulwren_core::appraise::Figure;
use haulwren_core::book::State;
use haulwren_core::view::{Field, Press, half_key};
use leptos::prelude::*;

use super::Desk;
use super::cover::cover_key;
use crate::format;
use crate::screens::page::use_wide;
use crate::store::{Store, use_store};
use crate::ui::el::{El, button, div, el, span};
use crate::ui::icons::{Icon, sign};
use crate::ui::keypad::{Key, KeypadShown, keypad};
use crate::ui::rail::Touched;
use crate::ui::why::why_lines;

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
    let Some(currency) = untrack(|| store.read_setup(State::currency)) else {
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
pub fn tray(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let covered = Memo::new(move |_| store.draft(|draft| draft.covered));
    let currency = Memo::new(move |_| store.read_setup(State::currency));
    let sum = Memo::new(move |_| {
        let said = view.with(|view| {
            let view = view.as_ref()?;
            let ask = view.buy?;
            let line = if ask.is_zero() { "free find" } else { "" };
            Some((format::amount(ask, view.currency), line.to_owned()))
        });
        said.unwrap_or_default()
    });
    let shown = KeypadShown {
        covered: covered.into(),
        half: Signal::derive(move || currency.get().map(half_key).unwrap_or_default()),
        has_point: Signal::derive(move || {
            currency
                .get()
                .is_some_and(|currency| currency.exponent() > 0)
        }),
        can_buy: Signal::derive(move || {
            view.with(|view| view.as_ref().is_some_and(|view| view.buy.is_some()))
        }),
        sum: sum.into(),
    };
    let head = move || (!covered.get()).then(|| [name_key(desk), why_key(desk)]);
    div("tray")
        .with(beside(desk))
        .with(div("tray-head").show(head).with(cover_key(desk)))
        .with(keypad(
            shown,
            Callback::new(move |key| type_key(store, desk, key)),
        ))
}

fn name_key(desk: Desk) -> El {
    let store = use_store();
    let name = Memo::new(move |_| store.draft(|draft| draft.name.clone()));
    let shown = move || match name.get() {
        name if name.is_empty() => span("unnamed").with("Name it, or not"),
        name => span("").with(name),
    };
    button("press name-key")
        .attr("data-key", "name")
        .on_click(move || desk.naming.set(true))
        .with(sign(Icon::Tag))
        .show(shown)
}

fn why_key(desk: Desk) -> El {
    let view = use_store().decide_view();
    let has_sums = move || {
        view.with(|view| {
            view.as_ref()
                .is_some_and(|view| view.appraisal.judged.is_some())
        })
    };
    button("press")
        .attr("data-key", "why")
        .flag("disabled", move || !has_sums())
        .on_click(move || desk.opened.set(Some(Touched::Verdict)))
        .with("Why")
}

/// On a wide window: what is kept, line by line, without a touch.
fn beside(desk: Desk) -> El {
    let view = use_store().decide_view();
    let wide = use_wide();
    let lines = move || {
        view.with(|view| {
            let view = view.as_ref()?;
            let judged = view.appraisal.judged.as_ref()?;
            let (figure, word) = match judged.ask {
                Some(_) => (Figure::Keep, "You keep"),
                None => (Figure::BeforePurchase, "Left before you buy"),
            };
            let lines = judged.why(figure);
            let total = lines.iter().map(|line| line.amount).sum();
            let heading = el("h2").with("What you keep, line by line");
            Some(el("section").class("beside").with(heading).with(why_lines(
                lines,
                word,
                total,
                view.currency,
            )))
        })
    };
    div("bare").show(move || (wide.get() && !desk.hides.get()).then(lines).flatten())
}
