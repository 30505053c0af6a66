//! One bought thing: its figures, its name, taking it out, and its history.

use haulwren_core::book::{Command, State};
use haulwren_core::id::ThingId;
use haulwren_core::view::HaulRow;
use leptos::prelude::*;

use super::history::history;
use super::sums::sum;
use crate::format;
use crate::route::{Route, use_routes};
use crate::screens::page::titled;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::field::{FieldSpec, field};
use crate::ui::icons::{Icon, sign};

/// The thing's page.
pub fn page(id: ThingId) -> El {
    let store = use_store();
    let row = Memo::new(move |_| {
        store
            .haul_view()
            .with(|view| view.as_ref()?.rows.iter().find(|row| row.id == id).cloned())
    });
    let title = move || {
        row.with(|row| match row {
            None => "Taken out".to_owned(),
            Some(row) if row.name.is_empty() => "No name yet".to_owned(),
            Some(row) => row.name.clone(),
        })
    };
    let is_there = Memo::new(move |_| row.with(Option::is_some));
    let body = move || -> Nodes {
        match (is_there.get(), store.all_read.get()) {
            (true, _) => {
                let figures = div("bare").show(move || row.get().as_ref().map(figures));
                [figures, rename(id, row), take_out(id)].into()
            }
            (false, true) => el("p")
                .with("This thing is not in the haul. Its history stays.")
                .into(),
            (false, false) => el("p").attr("role", "status").with("Reading").into(),
        }
    };
    let back = el("a")
        .class("press back")
        .attr("href", &Route::Haul.href())
        .with(sign(Icon::Back))
        .with("Haul");
    let form = div("form")
        .with(back)
        .show(body)
        .with(el("h2").with("History"))
        .with(history(id));
    el("section")
        .class("thing-page")
        .with(titled(title))
        .with(div("scroll").with(form))
}

fn figures(row: &HaulRow) -> El {
    let currency = use_store().read_setup(State::currency);
    let amount = |money| {
        currency
            .map(|currency| format::amount(money, currency))
            .unwrap_or_default()
    };
    let or_loss = |money| {
        currency
            .map(|currency| format::or_loss(money, currency))
            .unwrap_or_default()
    };
    let sells = row
        .sells
        .map(|sells| sum("Sells for", amount(sells.likely()), false));
    let judged = row.expected.as_ref().map(|expected| {
        let word = format!("{}, you keep", expected.verdict.word());
        sum(&word, or_loss(expected.keep), expected.keep.is_negative())
    });
    el("dl")
        .class("haul-sums flush")
        .attr("data-thing", &row.id.to_string())
        .with(sum("Paid", amount(row.paid), false))
        .with(sells)
        .with(judged)
}

/// Naming it. A save, so it can be undone.
fn rename(id: ThingId, row: Memo<Option<HaulRow>>) -> El {
    let store = use_store();
    let typed = RwSignal::new(None::<String>);
    let stored = Memo::new(move |_| {
        row.with(|row| row.as_ref().map(|row| row.name.clone()))
            .unwrap_or_default()
    });
    let value = Signal::derive(move || typed.get().unwrap_or_else(|| stored.get()));
    let is_changed =
        move || typed.with(|typed| typed.as_ref().is_some_and(|typed| *typed != stored.get()));
    let spec = FieldSpec {
        id: "thing-name",
        label: "Name",
        ..FieldSpec::default()
    };
    let named = field(
        spec,
        value,
        Signal::derive(|| None),
        Callback::new(move |text| typed.set(Some(text))),
    );
    let save = el("button")
        .attr("type", "submit")
        .class("press go")
        .flag("disabled", move || !is_changed());
    el("form")
        .class("pair")
        .on("submit", move |event| {
            event.prevent_default();
            let command = Command::Rename {
                thing: id,
                name: value.get_untracked(),
            };
            store.dispatch(command, move |saved| {
                if saved {
                    typed.try_set(None);
                }
            });
        })
        .with(named)
        .with(save.with("Save name"))
}

/// Taking it out. A save, so it can be undone.
fn take_out(id: ThingId) -> El {
    let (store, routes) = (use_store(), use_routes());
    let take_out = move || {
        store.dispatch(Command::TakeOut(id), move |saved| {
            if saved {
                routes.replace(Route::Haul);
            }
        });
    };
    button("press")
        .on_click(take_out)
        .with("Take out of the haul")
}
