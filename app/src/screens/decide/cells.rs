//! The fields: asking, sells for (low, likely, high), postage and packing.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::view::{DecideDraft, DecideView, Field};

use super::Desk;
use crate::format;
use crate::store::use_store;
use crate::ui::cell::{CellSpec, CellText, cell};
use crate::ui::el::{El, div};

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
const COSTS: [CellSpec; 2] = [
    spec(Field::Postage, "Postage", "Postage", false),
    spec(Field::Packing, "Packing", "Packing", false),
];

/// The row of fields.
pub fn cells(desk: Desk) -> El {
    let store = use_store();
    let view = store.decide_view();
    let one = move |spec: CellSpec| {
        let field = spec.field;
        let is_typed_into = worked(move || store.draft(|draft| draft.focus) == field);
        let shown = move || {
            let text = |view: &DecideView| store.draft(|draft| text_of(draft, view, field));
            view.with(|view| view.as_ref().map(text))
                .unwrap_or_default()
        };
        let go = move |()| {
            desk.refused.set(None);
            store.edit_draft(|draft| draft.go(field));
        };
        cell(spec, Rc::new(shown), is_typed_into, Rc::new(go))
    };
    let group = |class: &str, name: &str| div(class).attr("role", "group").attr("aria-label", name);
    let is_posted =
        move || view.with(|view| view.as_ref().is_some_and(|view| view.postage.is_some()));
    div("cells")
        .with(div("cell-group of-ask").with(ASK.map(one)))
        .with(group("cell-group of-sells", "Sells for").with(SELLS.map(one)))
        .with(
            group("cell-group of-costs", "Costs of sending")
                .class_if("unused", move || !is_posted())
                .with(COSTS.map(one)),
        )
}

/// What stands in a field: while the keypad types there, the text as typed; else the amount it means.
fn text_of(draft: &DecideDraft, view: &DecideView, field: Field) -> CellText {
    let fault = view
        .faults
        .iter()
        .find(|(at, _)| *at == field)
        .map(|(_, fault)| fault.clone());
    let typed = draft.text(field);
    let usual = match field {
        Field::Postage => view.postage,
        Field::Packing => view.postage.map(|_| view.packing),
        _ => None,
    };
    let is_usual = typed.is_empty();
    let is_sells = matches!(field, Field::Low | Field::Likely | Field::High);
    let text = match draft.amount(field, view.currency) {
        _ if draft.focus == field && !is_usual => typed.to_owned(),
        Ok(Some(amount)) if is_sells => format::short(amount, view.currency),
        Ok(Some(amount)) => format::amount(amount, view.currency),
        Ok(None) => usual
            .map(|usual| format::amount(usual, view.currency))
            .unwrap_or_default(),
        Err(_) => typed.to_owned(),
    };
    CellText {
        is_usual: is_usual && !text.is_empty(),
        is_fresh: draft.fresh && draft.focus == field,
        text,
        fault,
    }
}
