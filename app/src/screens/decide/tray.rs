//! The tray: reasons, "not now" and cover over the keypad; on a wide window the lines of what is kept stand over them.

use crate::live::{Worked, worked};
use std::rc::Rc;

use haulwren_core::appraise::{Figure, Judged};
use haulwren_core::book::State;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{DecideDraft, DecideView, Field, PileView, half_key, here};
use leptos::prelude::*;

use super::Desk;
use super::cover::cover_key;
use crate::format;
use crate::route::Route;
use crate::screens::page::use_wide;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{Do, El, button, div, el, span};
use crate::ui::icons::{Icon, sign};
use crate::ui::keypad::{Key, KeypadShown, keypad};
use crate::ui::rail::Touched;
use crate::ui::verdict::name;
use crate::ui::why::why_lines;

/// Types a key, or says why it was not taken. Covered, only the asking price is typed.
pub fn type_key(store: Store, desk: Desk, key: Key) {
    let press = match key {
        Key::Type(press) => press,
        Key::Next => {
            desk.refused.set(None);
            return store.edit_draft(|draft| draft.go(draft.focus.next()));
        }
        Key::Buy => return store.buy(),
        Key::Pile => {
            let laid = store.to_pile(1);
            let is_full = laid == 0 && !untrack(|| store.draft(DecideDraft::is_empty));
            return desk.refused.set(
                is_full.then(|| "The pile is full. Pay for it, or put something back.".to_owned()),
            );
        }
        // Only the pile has this key.
        Key::PutBack => return,
    };
    let Some(currency) = untrack(|| store.read_setup(State::currency)) else {
        return;
    };
    let taken = store.type_draft(|draft| {
        if draft.covered && draft.focus != Field::Ask {
            draft.go(Field::Ask);
        }
        draft.press(press, currency)
    });
    let refused = taken.err().map(|error| error.to_string());
    if desk.refused.with_untracked(|before| *before != refused) {
        desk.refused.set(refused);
    }
}

/// The tray.
pub fn tray(desk: Desk) -> El {
    let store = use_store();
    let head = move || {
        (!desk.covered.get()).then(|| [pile_strip(desk), not_now_key(desk), clear_key(desk)])
    };
    // Apart, since it adds up all that was bought: no key typed here changes it.
    let left = worked(move || store.read(here).map(|here| here.cash_left));
    let shown = worked(move || shown(store, desk, left));
    let on_key: Do<Key> = Rc::new(move |key| type_key(store, desk, key));
    div("tray")
        .with(beside(desk))
        .with(div("tray-head").show(head).with(cover_key(desk)))
        .with(keypad(desk.covered, shown, &on_key))
}

/// The pile: how many things, up to how much, what was asked. Without one, the reasons behind the verdict.
fn pile_strip(desk: Desk) -> El {
    let view = use_store().pile_view();
    let told = worked(move || view.with(|view| view.as_ref().map(told).unwrap_or_default()));
    div("bare").show(move || {
        let told = told.get();
        if told.0 == 0 {
            return why_key(desk);
        }
        el("a")
            .class("press pile-strip")
            .attr("href", &Route::Pile.href())
            .attr("data-key", "to-pile-screen")
            .with(sign(Icon::Pile))
            .with(
                span("")
                    .with(el("b").with(format!("Pile {}", told.0)))
                    .with(" ")
                    .with(
                        el("small").with(
                            told.1
                                .into_iter()
                                .map(|sum| span("").with(sum))
                                .collect::<Vec<_>>(),
                        ),
                    ),
            )
    })
}

fn told(view: &PileView) -> (usize, Vec<String>) {
    let show = |word, money| format!("{word} {}", format::amount(money, view.currency));
    let mut sums = vec![show("up to", view.ceiling)];
    sums.extend(view.asked.map(|asked| show("asked", asked)));
    (view.rows.len(), sums)
}

fn shown(store: Store, desk: Desk, left: Worked<Option<Money>>) -> KeypadShown {
    store.decide_view().with(|view| {
        let Some(view) = view else {
            return KeypadShown::default();
        };
        KeypadShown {
            half: half_key(view.currency),
            has_point: view.currency.exponent() > 0,
            sum: view
                .buy
                .map(|ask| format::amount(ask.plus(view.extras), view.currency)),
            tone: tone(view.appraisal.judged.as_ref()),
            can_pile: !desk.is_idle.get(),
            note: view
                .buy
                .map(|ask| paid_how(store, left, ask.plus(view.extras), view.currency))
                .unwrap_or_default(),
        }
    })
}

/// The verdict's name; nothing while there is none.
pub fn tone(judged: Option<&Judged>) -> &'static str {
    let verdict = judged.and_then(|judged| judged.verdict);
    verdict.map_or("", |(verdict, _)| name(verdict))
}

/// How it is paid for: what the purse has left after it, or by how much it is over. The purse never changes a verdict.
fn paid_how(store: Store, left: Worked<Option<Money>>, ask: Money, currency: Currency) -> String {
    if ask.is_zero() {
        return "free find".to_owned();
    }
    if store.draft(|draft| draft.other) {
        return "not in cash".to_owned();
    }
    let Some(left) = left.get() else {
        return String::new();
    };
    let after = left.minus(ask);
    if after.is_negative() {
        format!("{} over cash", format::amount(after.abs(), currency))
    } else {
        format!("cash, leaves {}", format::amount(after, currency))
    }
}

/// Keeps the thing as one that was passed by, and empties the form.
fn not_now_key(desk: Desk) -> El {
    let store = use_store();
    button("press")
        .attr("data-key", "not-now")
        .flag("disabled", move || desk.is_idle.get())
        .on_click(move || store.pass_by())
        .with("Pass")
}

/// Empties the form.
fn clear_key(desk: Desk) -> El {
    let store = use_store();
    button("press clear-all")
        .attr("data-key", "clear-all")
        .attr("aria-label", "Clear all")
        .flag("disabled", move || desk.is_idle.get())
        .on_click(move || {
            desk.refused.set(None);
            store.edit_draft(|draft| {
                draft.go(Field::Ask);
                *draft = draft.after_buy();
            });
        })
        .with(sign(Icon::Clear))
}

fn why_key(desk: Desk) -> El {
    button("press why-key")
        .attr("data-key", "why")
        .flag("disabled", move || !desk.has_sums.get())
        .on_click(move || desk.opened.set(Some(Touched::Verdict)))
        .with("Why")
}

/// On a wide window: what is kept, line by line, without a touch.
fn beside(desk: Desk) -> El {
    let view = use_store().decide_view();
    let wide = use_wide();
    div("bare").show(move || {
        let shows = wide.get() && !desk.hides.get();
        if shows {
            view.with(|view| view.as_ref().and_then(kept))
        } else {
            None
        }
    })
}

fn kept(view: &DecideView) -> Option<El> {
    let judged = view.appraisal.judged.as_ref()?;
    let (figure, word) = match judged.ask {
        Some(_) => (Figure::Keep, "You keep"),
        None => (Figure::BeforePurchase, "Left before you buy"),
    };
    let lines = judged.why(figure);
    let total = lines.iter().map(|line| line.amount).sum();
    let heading = parts::heading("What you keep, line by line");
    Some(el("section").class("beside").with(heading).with(why_lines(
        &lines,
        word,
        total,
        view.currency,
    )))
}
