//! The fields: asking, sells for (low, likely, high), and what the thing is.

use crate::follow::{follow, follow_later};
use crate::live::{settled, worked};
use std::rc::Rc;

use haulwren_core::view::{DecideDraft, DecideView, Field};
use leptos::prelude::{document, untrack};

use super::Desk;
use super::keys::focus_field;
use crate::format;
use crate::store::{Store, use_store};
use crate::ui::cell::{Cell, CellSpec, CellText};
use crate::ui::el::{El, button, div, el, span};

const fn spec(field: Field, word: &'static str, name: &'static str, main: bool) -> CellSpec {
    CellSpec {
        field,
        word,
        name,
        main,
    }
}

const ASK: CellSpec = spec(Field::Ask, "Asking", "Asking", true);
const LOW: CellSpec = spec(Field::Low, "low", "Sells for, low", false);
const LIKELY: CellSpec = spec(Field::Likely, "Sells for", "Likely sells for", true);
const HIGH: CellSpec = spec(Field::High, "high", "Sells for, high", false);

/// The row of fields.
pub fn cells(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let one = move |spec: CellSpec| {
        let field = spec.field;
        let go = move || {
            desk.refused.set(None);
            store.edit_draft(|draft| draft.go(field));
        };
        let step = move |()| {
            if untrack(|| store.draft(|draft| draft.focus)) != field {
                go();
            }
        };
        Cell::new(spec, Rc::new(move |()| go()), Rc::new(step))
    };
    let specs = [ASK, LOW, LIKELY, HIGH];
    let cells = specs.map(one);
    let [ask, sells @ ..] = cells.each_ref().map(|cell| cell.whole.clone());
    // One for all: a key changes what stands in one of them, and often where the next is typed.
    follow(Box::new(move || {
        view.with(|view| {
            store.draft(|draft| {
                for (cell, spec) in cells.iter().zip(&specs) {
                    let text = |view| text_of(draft, view, spec.field);
                    cell.draw(&view.as_ref().map(text).unwrap_or_default());
                }
            });
        });
    }));
    follow_keypad(store);
    let group = |class: &str, name: &str| div(class).attr("role", "group").attr("aria-label", name);
    div("cells")
        .with(div("cell-group of-ask").with(ask))
        .with(group("cell-group of-sells", "Sells for").with(sells))
        .with(what_key(desk))
}

/// The page's own focus follows the keypad when it goes from field to field, so that the keyboard goes on from there. It is never taken
/// from anything else.
fn follow_keypad(store: Store) {
    let focus = worked(move || store.draft(|draft| draft.focus));
    follow_later(Box::new(move || {
        let name = focus.get().name();
        let on = document().active_element();
        let is_on_other = on
            .and_then(|on| on.get_attribute("data-field"))
            .is_some_and(|field| field != name);
        if is_on_other {
            focus_field(name);
        }
    }));
}

/// What the thing is: its name or kind, and how it is sent. Touched, it opens the sheet where that is said.
fn what_key(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    // What it is called, and how it is sent.
    let told = settled(move || {
        let typed = store.draft(|draft| draft.name.clone());
        let kind = || view.with(|view| view.as_ref()?.kind.clone());
        let heft = || store.draft(|draft| draft.heft.map(|heft| heft.label().to_owned()));
        let name = Some(typed).filter(|name| !name.is_empty());
        let name = name.or_else(kind).or_else(heft).unwrap_or_default();
        let sent = view.with(|view| view.as_ref().map(sent).unwrap_or_default());
        let work = store.draft(|draft| draft.text(Field::Work).to_owned());
        let line = match (work.as_str(), sent.as_str()) {
            ("", _) => sent,
            (_, "") => format!("work {work}"),
            _ => format!("work {work}, {sent}"),
        };
        (name, line)
    });
    button("what-key")
        .attr("data-key", "what")
        .class_if("unnamed", move || told.with(|told| told.0.is_empty()))
        .on_click(move || desk.naming.set(true))
        .with(el("b").text_of(move || match told.get().0 {
            none if none.is_empty() => "What is it?".to_owned(),
            name => name,
        }))
        .with(span("line").text_of(move || told.get().1))
}

/// How it is sent, in a line.
fn sent(view: &DecideView) -> String {
    let Some(postage) = view.postage else {
        let is_unsaid = view.venues.iter().any(|card| card.judged && card.unsaid);
        return if is_unsaid { "post not said" } else { "" }.to_owned();
    };
    let amount = format::amount(postage, view.currency);
    match view.posted.short() {
        none if none.is_empty() => format!("post {amount}"),
        short => short,
    }
}

/// What stands in a field: while the keypad types there, the text as typed; else the amount it means.
fn text_of(draft: &DecideDraft, view: &DecideView, field: Field) -> CellText {
    let fault = view
        .faults
        .iter()
        .find(|(at, _)| *at == field)
        .map(|(_, fault)| fault.clone());
    let (typed, is_typed_into) = (draft.text(field), draft.focus == field);
    let is_empty = typed.is_empty();
    let is_sells = matches!(field, Field::Low | Field::Likely | Field::High);
    let text = match draft.amount(field, view.currency) {
        _ if is_typed_into && !is_empty => typed.to_owned(),
        Ok(Some(amount)) if is_sells => format::short(amount, view.currency),
        Ok(Some(amount)) => format::amount(amount, view.currency),
        Ok(None) => String::new(),
        Err(_) => typed.to_owned(),
    };
    CellText {
        is_typed_into,
        is_fresh: draft.fresh && is_typed_into,
        text,
        fault,
    }
}
