//! The tray of the pile: what the seller says for all, or what is asked for one thing; cover; and the keypad.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::view::half_key;

use super::Desk;
use super::keys::type_key;
use crate::format;
use crate::screens::decide::{cover_key, tone};
use crate::store::{Store, use_store};
use crate::ui::el::{Do, El, button, div, span};
use crate::ui::keypad::{Key, KeypadShown, PileKeys, pile_keypad};

/// The tray.
pub fn tray(desk: Desk) -> El {
    let store = use_store();
    let is_pricing = worked(move || store.pile(|pile| pile.at.is_some()));
    let shown = worked(move || shown(store));
    let on_key: Do<Key> = Rc::new(move |key| type_key(store, desk, key));
    let closes: Do<()> = Rc::new(move |()| desk.opened.set(None));
    let head = div("tray-head").with(says(store, desk)).with(cover_key(
        desk.covered,
        desk.peeking,
        closes,
    ));
    div("tray")
        .with(head)
        .with(pile_keypad(shown, is_pricing, &on_key))
}

/// The field that the keypad types into. Touched while one thing is being priced, it goes back to the price for all.
fn says(store: Store, desk: Desk) -> El {
    let word = worked(move || {
        let at = store.pile(|pile| pile.at);
        let name = at.and_then(|at| {
            store
                .pile_view()
                .with(|view| Some(view.as_ref()?.rows.get(at)?.name.clone()))
        });
        name.map_or_else(
            || "Seller says, for all".to_owned(),
            |name| format!("Asked for {name}"),
        )
    });
    let text = move || store.pile(|pile| pile.text().to_owned());
    let said = move || {
        let text = text();
        let text = if text.is_empty() { "empty" } else { &text };
        format!("{} {text}", word.get())
    };
    let go = move || {
        desk.refused.set(None);
        store.edit_pile(|pile| pile.go(None));
    };
    let is_fresh = move || store.pile(|pile| pile.fresh && !pile.text().is_empty());
    button("press pile-says")
        .attr("data-field", "says")
        .attr("aria-pressed", "true")
        .attr_of("aria-label", move || Some(said()))
        .class_if("fresh", is_fresh)
        .on_click(go)
        .with(span("w").text_of(move || word.get()))
        .with(" ")
        .with(span("n").text_of(text))
}

fn shown(store: Store) -> PileKeys {
    store.pile_view().with(|view| {
        let Some(view) = view else {
            return PileKeys::default();
        };
        let pad = KeypadShown {
            can_pile: false,
            half: half_key(view.currency),
            has_point: view.currency.exponent() > 0,
            sum: view.pay.map(|pay| format::amount(pay, view.currency)),
            tone: tone(view.judged.as_ref().map(|judged| &judged.all)),
            note: String::new(),
        };
        PileKeys {
            pad,
            count: view.in_it,
        }
    })
}
