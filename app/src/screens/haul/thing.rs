//! One bought thing: its figures, its name, taking it out, and its history.

use haulwren_core::book::{Command, State};
use haulwren_core::id::ThingId;
use haulwren_core::view::HaulRow;
use leptos::ev::SubmitEvent;
use leptos::prelude::*;

use super::history::History;
use super::last_save::LastSave;
use crate::format;
use crate::route::{Route, use_routes};
use crate::screens::signal::use_offline;
use crate::store::use_store;
use crate::ui::field::Field;
use crate::ui::icons::{Icon, Sign};
use crate::ui::strip::Strip;

/// The screen.
#[component]
pub fn ThingPage(id: ThingId) -> impl IntoView {
    let store = use_store();
    let row = Memo::new(move |_| {
        store
            .haul_view()
            .with(|view| view.as_ref()?.rows.iter().find(|row| row.id == id).cloned())
    });
    let title = Signal::derive(move || {
        row.with(|row| {
            let name = row.as_ref().map(|row| row.name.clone()).unwrap_or_default();
            if name.is_empty() {
                "No name yet".to_owned()
            } else {
                name
            }
        })
    });
    let is_there = Memo::new(move |_| row.with(Option::is_some));
    let body = move || {
        if is_there.get() {
            view! {
                {move || row.get().map(figures)}
                <Rename id row />
            }
            .into_any()
        } else if store.all_read.get() {
            view! { <p>"This thing is not in the haul. Its history stays."</p> }.into_any()
        } else {
            view! { <p role="status">"Reading"</p> }.into_any()
        }
    };
    view! {
        <Strip title offline=use_offline() />
        <div class="scroll">
            <div class="form haul-body">
                <a class="press back" href=Route::Haul.href()>
                    <Sign icon=Icon::Back />
                    "Haul"
                </a>
                {body}
                <h2>"History"</h2>
                <History id />
            </div>
        </div>
        <LastSave />
    }
}

fn figures(row: HaulRow) -> impl IntoView {
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
    let sells = row.sells.map(|sells| amount(sells.likely()));
    let judged = row.expected.map(|expected| {
        (
            expected.verdict.word(),
            or_loss(expected.keep),
            expected.keep.is_negative(),
        )
    });
    view! {
        <dl class="haul-sums flush" data-thing=row.id.to_string()>
            <div>
                <dt>"Paid"</dt>
                <dd>{amount(row.paid)}</dd>
            </div>
            {sells.map(|sells| view! { <div><dt>"Sells for"</dt><dd>{sells}</dd></div> })}
            {judged
                .map(|(word, keep, is_loss)| {
                    view! {
                        <div>
                            <dt>{format!("{word}, you keep")}</dt>
                            <dd class:loss=is_loss>{keep}</dd>
                        </div>
                    }
                })}
        </dl>
    }
}

/// Naming it, and taking it out. Both are saves, so both can be undone.
#[component]
fn Rename(id: ThingId, row: Memo<Option<HaulRow>>) -> impl IntoView {
    let store = use_store();
    let routes = use_routes();
    let typed = RwSignal::new(None::<String>);
    let stored = move || {
        row.with(|row| row.as_ref().map(|row| row.name.clone()))
            .unwrap_or_default()
    };
    let value = Signal::derive(move || typed.get().unwrap_or_else(stored));
    let save = move |event: SubmitEvent| {
        event.prevent_default();
        let command = Command::Rename {
            thing: id,
            name: value.get_untracked(),
        };
        store.dispatch(command, move |saved| {
            if saved {
                typed.set(None);
            }
        });
    };
    let take_out = move |_| {
        store.dispatch(Command::TakeOut(id), move |saved| {
            if saved {
                routes.replace(Route::Haul);
            }
        });
    };
    let is_changed =
        move || typed.with(|typed| typed.as_ref().is_some_and(|typed| *typed != stored()));
    view! {
        <form class="pair" on:submit=save>
            <Field id="thing-name" label="Name" value on_input=move |text| typed.set(Some(text)) />
            <button type="submit" class="press go" disabled=move || !is_changed()>"Save name"</button>
        </form>
        <button type="button" class="press" on:click=take_out>"Take out of the haul"</button>
    }
}
