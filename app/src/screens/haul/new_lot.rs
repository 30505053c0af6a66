//! A lot bought unseen, sorted at home: how many things, and what was paid for all of them, in a few touches.

use std::rc::Rc;

use haulwren_core::book::LotCommand;
use haulwren_core::json;
use haulwren_core::ledger::Paying;
use haulwren_core::view::{COUNTS, LotForm, half_key};
use leptos::prelude::untrack;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

use crate::format;
use crate::live::{Live, worked};
use crate::route::{self, Route};
use crate::screens::decide::{is_on_sheet, key_of};
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Now, button, div, el, on_window, span};
use crate::ui::keypad::{Key, KeypadShown, lot_keypad};

/// The page.
pub fn page() -> El {
    let store = use_store();
    let refused = Live::new(None::<String>);
    let on_key: Do<Key> = Rc::new(move |key| type_key(store, refused, key));
    let heard = on_key.clone();
    on_window("keydown", move |event| {
        let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
            return;
        };
        if is_on_sheet() || event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if let Some(key) = key_of(event) {
            event.prevent_default();
            heard(key);
        }
    });
    let shown = worked(move || shown(store));
    let line: Now<String> =
        Rc::new(
            move || match read(store, |form| form.count.clone()).as_str() {
                "" => "how many?".to_owned(),
                "1" => "1 thing, sort at home".to_owned(),
                count => format!("{count} things, sort at home"),
            },
        );
    let chips = COUNTS.map(|count| {
        button("press chip")
            .attr("data-count", &count.to_string())
            .state("aria-pressed", move || {
                read(store, |form| form.count == count.to_string())
            })
            .on_click(move || edit(store, |form| form.choose(count)))
            .with(count.to_string())
    });
    let body = div("form")
        .with(parts::back(Route::Haul, "Haul"))
        .with(parts::support(
            "Several things for one price, not looked at one by one. Sort them at home.",
        ))
        .with(parts::heading("How many"))
        .with(div("chip-row").with(chips))
        .with(by(store))
        .show(move || {
            let why = refused.get();
            why.map(|why| parts::line(&why).class("fault").attr("role", "alert"))
        });
    let cells = div("lot-cells")
        .with(cell(store, false, "How many"))
        .with(cell(store, true, "Paid for all"));
    let tray = div("tray")
        .with(cells)
        .with(lot_keypad(shown, line, &on_key));
    el("section")
        .class("thing-page new-lot")
        .with(titled(|| "A lot, sorted later".to_owned()))
        .with(div("scroll").with(body))
        .with(tray)
}

/// The name of the half-typed form.
const DRAFT: &str = "lot";

fn read<R>(store: Store, read: impl FnOnce(&LotForm) -> R) -> R {
    let form = store.form(DRAFT, json::of::<LotForm>);
    read(&form.unwrap_or_default())
}

fn edit<R>(store: Store, change: impl FnOnce(&mut LotForm) -> R) -> R {
    let mut form = untrack(|| read(store, LotForm::clone));
    let result = change(&mut form);
    let is_new = form == LotForm::default();
    store.keep_form(DRAFT, (!is_new).then(|| json::value(&form)));
    result
}

/// One of the two fields that the keypad types into.
fn cell(store: Store, paid: bool, word: &'static str) -> El {
    let text = move || {
        read(store, |form| {
            if paid {
                form.paid.clone()
            } else {
                form.count.clone()
            }
        })
    };
    let is_here = worked(move || read(store, |form| form.on_paid == paid));
    let said = move || {
        let text = text();
        let text = if text.is_empty() { "empty" } else { &text };
        format!("{word} {text}")
    };
    button("press pile-says")
        .attr("data-field", if paid { "lot-paid" } else { "lot-count" })
        .state("aria-pressed", move || is_here.get())
        .attr_of("aria-label", move || Some(said()))
        .on_click(move || edit(store, |form| form.go(paid)))
        .with(span("w").with(word))
        .with(" ")
        .with(span("n").text_of(text))
}

fn by(store: Store) -> El {
    let chosen: Now<usize> = Rc::new(move || read(store, |form| usize::from(form.other)));
    let choose: Do<usize> = Rc::new(move |at| edit(store, |form| form.other = at == 1));
    let words = [("in cash", ""), ("otherwise", "")];
    choice_keys("Paid", "new-lot-by", false, &words, &chosen, &choose)
}

fn shown(store: Store) -> KeypadShown {
    let Some(currency) = store.currency() else {
        return KeypadShown::default();
    };
    let read = read(store, |form| form.read(currency));
    KeypadShown {
        tone: "",
        half: half_key(currency),
        has_point: currency.exponent() > 0,
        sum: read.map(|(_, paid)| format::amount(paid, currency)),
        note: String::new(),
        can_pile: false,
    }
}

fn type_key(store: Store, refused: Live<Option<String>>, key: Key) {
    refused.set(None);
    let Some(currency) = untrack(|| store.currency()) else {
        return;
    };
    match key {
        Key::Type(press) => {
            let taken = edit(store, |form| form.press(press, currency));
            refused.set(taken.err().map(|error| error.to_string()));
        }
        Key::Next => edit(store, |form| form.go(!form.on_paid)),
        Key::Buy => buy(store),
        // Only Decide and the pile have these.
        Key::Pile | Key::PutBack => {}
    }
}

fn buy(store: Store) {
    let read = untrack(|| {
        let currency = store.currency()?;
        read(store, |form| Some((form.read(currency)?, form.other)))
    });
    let Some(((count, paid), other)) = read else {
        return;
    };
    // A second tap while the first is being saved does nothing.
    if store.saving.get_untracked() {
        return;
    }
    let by = if other { Paying::Other } else { Paying::Cash };
    let name = String::new();
    let command = LotCommand::BuyUnsorted {
        count,
        paid,
        by,
        name,
    };
    store.dispatch(command.into(), move |saved| {
        if saved {
            edit(store, |form| *form = LotForm::default());
            route::replace(Route::Haul);
        }
    });
}
