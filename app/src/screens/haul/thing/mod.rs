//! One bought thing: its figures, its name and marks, its pictures, what was done to it, and its history.

pub mod correct;
mod deeds;
mod facts;
mod photos;

use std::rc::Rc;

use haulwren_core::book::Command;
use haulwren_core::change::RecordKey;
use haulwren_core::id::{LotId, ThingId};
use haulwren_core::view::HaulRow;
use leptos::prelude::*;
use serde_json::Value;

use super::{beside, lot_page};
use crate::live::worked;
use crate::screens::choices;
use crate::screens::history::history;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::field::{FieldSpec, field};

/// The thing's page.
pub fn page(id: ThingId) -> El {
    let store = use_store();
    let title = move || match name_of(store, id) {
        None => "Taken out".to_owned(),
        Some(name) if name.is_empty() => "No name yet".to_owned(),
        Some(name) => name,
    };
    let is_there = worked(move || name_of(store, id).is_some());
    let facts = move || {
        let drawn = store.haul_view().with(|view| {
            let view = view.as_ref()?;
            let row = view.rows.iter().find(|row| row.id == id)?;
            Some(facts::figures(store, row, view.currency))
        });
        drawn.unwrap_or_else(|| {
            if store.all_read.get() {
                parts::line("This thing is not in the haul. Its history stays.").into()
            } else {
                parts::status("Reading").into()
            }
        })
    };
    let about = move || -> Nodes {
        if !is_there.get() {
            return ().into();
        }
        untrack(|| {
            [
                rename(id),
                facts::facts(id),
                facts::marks(id),
                purchase(id),
                photos::photos(id),
                deeds::deeds(id),
            ]
            .into()
        })
    };
    let inside = div("form flush")
        .with(choices::of_record(id.record()))
        .show(facts)
        .show(about)
        .with(parts::heading("History"))
        .with(history(move || records(store, id)));
    beside(title, inside)
}

/// The records that its history tells: its own, and that of its lot.
fn records(store: Store, id: ThingId) -> Vec<RecordKey> {
    let lot = store.read(|book| {
        let thing = book.tables.things.get(&id.0)?;
        thing.value.lot
    });
    let lot = lot.map(LotId::record);
    [id.record()].into_iter().chain(lot).collect()
}

/// The thing's row; `None` when it is not in the haul. Tracks the haul.
fn row_of<R>(store: Store, id: ThingId, read: impl FnOnce(&HaulRow) -> R) -> Option<R> {
    store.haul_view().with(|view| {
        let row = view.as_ref()?.rows.iter().find(|row| row.id == id)?;
        Some(read(row))
    })
}

/// The thing's name; empty while it has none, `None` when it is not in the haul.
fn name_of(store: Store, id: ThingId) -> Option<String> {
    row_of(store, id, |row| row.name.clone())
}

/// Naming it. A save, so it can be undone. A half-typed name is a draft: it stands when the page is come back to.
fn rename(id: ThingId) -> El {
    let store = use_store();
    let draft = move || format!("name/{id}");
    let read = |name: &Value| name.as_str().map(str::to_owned);
    let typed = worked(move || store.form(&draft(), read));
    let stored = move || name_of(store, id).unwrap_or_default();
    let value = move || typed.get().unwrap_or_else(stored);
    let is_changed =
        move || typed.with(|typed| typed.as_ref().is_some_and(|typed| *typed != stored()));
    let keep = move |name: String| {
        let is_new = name != untrack(stored);
        store.keep_form(&draft(), is_new.then(|| name.into()));
    };
    let spec = FieldSpec {
        id: "thing-name",
        label: "Name",
        ..FieldSpec::default()
    };
    let save = move || {
        let command = Command::Rename {
            thing: id,
            name: untrack(value),
        };
        store.dispatch(command, move |saved| {
            if saved {
                store.keep_form(&draft(), None);
            }
        });
    };
    parts::form("pair", save)
        .with(field(spec, Rc::new(value), Rc::new(|| None), Rc::new(keep)))
        .with(parts::submit("Save name").flag("disabled", move || !is_changed()))
}

/// How it was bought, unless its lot has a page of its own.
fn purchase(id: ThingId) -> El {
    let store = use_store();
    let bought = move || -> Nodes {
        let lot = row_of(store, id, |row| row.lot).flatten();
        let lot = lot.filter(|lot| !store.read(|book| facts::has_page(book, *lot)));
        lot.map(|lot| {
            part(
                "How it was bought",
                untrack(|| lot_page::of_single(store, lot)),
            )
        })
        .into()
    };
    div("bare").show(bought)
}

/// A part of the page under its heading.
fn part(title: &str, inside: impl Into<Nodes>) -> El {
    el("section")
        .class("form flush")
        .with(parts::heading(title))
        .with(inside)
}
