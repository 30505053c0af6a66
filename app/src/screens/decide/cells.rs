//! The fields: asking, sells for (low, likely, high), postage and packing.

use haulwren_core::view::{DecideDraft, DecideView, Field};
use leptos::prelude::*;

use super::Desk;
use crate::format;
use crate::store::use_store;
use crate::ui::cell::{Cell, CellText};

/// The row of fields.
#[component]
pub fn Cells(desk: Desk) -> impl IntoView {
    let store = use_store();
    let view = store.decide_view();
    let focus = Signal::derive(move || store.draft(|draft| draft.focus));
    let shown = move |field| {
        Signal::derive(move || {
            view.with(|view| {
                view.as_ref()
                    .map(|view| store.draft(|draft| text_of(draft, view, field)))
            })
            .unwrap_or_default()
        })
    };
    let on_go = Callback::new(move |field| {
        desk.refused.set(None);
        store.edit_draft(|draft| draft.go(field));
    });
    let costs_post =
        move || view.with(|view| view.as_ref().is_some_and(|view| view.postage.is_some()));
    view! {
        <div class="cells">
            <div class="cell-group of-ask">
                <Cell field=Field::Ask word="Asking" shown=shown(Field::Ask) focus on_go main=true />
            </div>
            <div class="cell-group of-sells" role="group" aria-label="Sells for">
                <Cell field=Field::Low word="low" name="Sells for, low" shown=shown(Field::Low) focus on_go />
                <Cell field=Field::Likely word="Sells for" name="Sells for, likely" shown=shown(Field::Likely) focus on_go main=true />
                <Cell field=Field::High word="high" name="Sells for, high" shown=shown(Field::High) focus on_go />
            </div>
            <div class="cell-group of-costs" role="group" aria-label="Costs of sending" class:unused=move || !costs_post()>
                <Cell field=Field::Postage word="Postage" shown=shown(Field::Postage) focus on_go />
                <Cell field=Field::Packing word="Packing" shown=shown(Field::Packing) focus on_go />
            </div>
        </div>
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
    let usual = match field {
        Field::Postage => view.postage,
        Field::Packing => view.postage.map(|_| view.packing),
        _ => None,
    };
    let is_usual = typed.is_empty();
    let text = match draft.amount(field, view.currency) {
        _ if draft.focus == field && !is_usual => typed.to_owned(),
        Ok(Some(amount)) if matches!(field, Field::Low | Field::Likely | Field::High) => {
            format::short(amount, view.currency)
        }
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
