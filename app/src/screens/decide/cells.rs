//! The fields: asking, sells for (low, likely, high), and what the thing is.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::view::{DecideDraft, DecideView, Field};

use super::Desk;
use crate::format;
use crate::store::use_store;
use crate::ui::cell::{CellSpec, CellText, cell};
use crate::ui::el::{El, button, div, el, span};

const fn spec(field: Field, word: &'static str, name: &'static str, main: bool) -> CellSpec {
    CellSpec {
        field,
        word,
        name,
        main,
    }
}

const ASK: [CellSpec; 1] = [spec(Field::Ask, "Asking", "Asking", true)];
const SELLS: [CellSpec; 3] = [
    spec(Field::Low, "low", "Sells for, low", false),
    spec(Field::Likely, "Sells for", "Likely sells for", true),
    spec(Field::High, "high", "Sells for, high", false),
];

/// The row of fields.
pub fn cells(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let one = move |spec: CellSpec| {
        let field = spec.field;
        let is_typed_into = worked(move || store.draft(|draft| draft.focus) == field);
        let shown = worked(move || {
            let text = |view: &DecideView| store.draft(|draft| text_of(draft, view, field));
            view.with(|view| view.as_ref().map(text))
                .unwrap_or_default()
        });
        let go = move |()| {
            desk.refused.set(None);
            store.edit_draft(|draft| draft.go(field));
        };
        cell(spec, shown, is_typed_into, Rc::new(go))
    };
    let group = |class: &str, name: &str| div(class).attr("role", "group").attr("aria-label", name);
    div("cells")
        .with(div("cell-group of-ask").with(ASK.map(one)))
        .with(group("cell-group of-sells", "Sells for").with(SELLS.map(one)))
        .with(what_key(desk))
}

/// What the thing is: its name or kind, and how it is sent. Touched, it opens the sheet where that is said.
fn what_key(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let name = worked(move || {
        let typed = store.draft(|draft| draft.name.clone());
        let kind = || view.with(|view| view.as_ref()?.kind.clone());
        let heft = || store.draft(|draft| draft.heft.map(|heft| heft.label().to_owned()));
        let name = Some(typed).filter(|name| !name.is_empty());
        name.or_else(kind).or_else(heft).unwrap_or_default()
    });
    let line = worked(move || view.with(|view| view.as_ref().map(sent).unwrap_or_default()));
    button("what-key")
        .attr("data-key", "what")
        .class_if("unnamed", move || name.with(String::is_empty))
        .on_click(move || desk.naming.set(true))
        .with(el("b").text_of(move || match name.get() {
            none if none.is_empty() => "What is it?".to_owned(),
            name => name,
        }))
        .with(span("line").text_of(move || line.get()))
}

/// How it is sent, in a line.
fn sent(view: &DecideView) -> String {
    let Some(postage) = view.postage else {
        return String::new();
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
    let typed = draft.text(field);
    let is_empty = typed.is_empty();
    let is_sells = matches!(field, Field::Low | Field::Likely | Field::High);
    let text = match draft.amount(field, view.currency) {
        _ if draft.focus == field && !is_empty => typed.to_owned(),
        Ok(Some(amount)) if is_sells => format::short(amount, view.currency),
        Ok(Some(amount)) => format::amount(amount, view.currency),
        Ok(None) => String::new(),
        Err(_) => typed.to_owned(),
    };
    CellText {
        is_fresh: draft.fresh && draft.focus == field,
        text,
        fault,
    }
}
