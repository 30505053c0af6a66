//! Haul: what was bought, newest first, and what it comes to; one thing with its history; the bar that takes a save back.

mod history;
mod last_save;
mod row;
mod thing;

use haulwren_core::day::Day;
use haulwren_core::view::{HaulRow, HaulView};
use leptos::prelude::*;

use super::signal::use_offline;
use crate::format;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::icons::{Icon, Sign};
use crate::ui::notice::Empty;
use crate::ui::strip::Strip;

pub use last_save::LastSave;
pub use thing::ThingPage;

/// The screen.
#[component]
pub fn Haul() -> impl IntoView {
    let store = use_store();
    let view = store.haul_view();
    let is_empty =
        Memo::new(move |_| view.with(|view| view.as_ref().is_none_or(|view| view.rows.is_empty())));
    let sums = Memo::new(move |_| view.with(|view| view.as_ref().map(Sums::of)));
    let rows = Memo::new(move |_| {
        view.with(|view| {
            view.as_ref()
                .map(|view| listed(&view.rows))
                .unwrap_or_default()
        })
    });
    let list = move || {
        if is_empty.get() {
            if store.all_read.get() {
                view! {
                    <Empty line="Nothing bought yet. Type an asking price.">
                        <a class="press go" href=Route::Decide.href()>
                            <Sign icon=Icon::Plus />
                            "Thing"
                        </a>
                    </Empty>
                }
                .into_any()
            } else {
                view! { <p class="pad" role="status">"Reading what you bought"</p> }.into_any()
            }
        } else {
            view! {
                {move || sums.get().map(Sums::show)}
                <div class="rows">
                    <For each=move || rows.get() key=|listed| listed.clone() let(listed)>
                        {row::show(listed)}
                    </For>
                </div>
            }
            .into_any()
        }
    };
    view! {
        <Strip title="Haul".to_owned() offline=use_offline() />
        <div class="scroll">
            <div class="haul-body">{list}</div>
        </div>
        <div class="tray haul-tray">
            <a class="press go" href=Route::Decide.href()>
                <Sign icon=Icon::Plus />
                "Thing"
            </a>
        </div>
        <LastSave />
    }
}

/// A row, with the day over it where the day changes.
#[derive(Clone, PartialEq)]
struct Listed {
    day: Option<Day>,
    row: HaulRow,
}

impl std::hash::Hash for Listed {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.row.id.hash(state);
    }
}

impl Eq for Listed {}

fn listed(rows: &[HaulRow]) -> Vec<Listed> {
    let mut before = None;
    rows.iter()
        .map(|row| {
            let day = row.bought.and_then(haulwren_core::stamp::At::day);
            let is_new = day.is_some() && day != before;
            before = day.or(before);
            Listed {
                day: day.filter(|_| is_new),
                row: row.clone(),
            }
        })
        .collect()
}

/// What it all comes to.
#[derive(Clone, PartialEq)]
struct Sums {
    spent: String,
    things: usize,
    keep: String,
    is_loss: bool,
    unjudged: usize,
}

impl Sums {
    fn of(view: &HaulView) -> Self {
        Self {
            spent: format::amount(view.spent, view.currency),
            things: view.rows.len(),
            keep: format::or_loss(view.keep, view.currency),
            is_loss: view.keep.is_negative(),
            unjudged: view.unjudged,
        }
    }

    fn show(self) -> impl IntoView {
        let without = (self.unjudged > 0).then(|| format!("without {} not judged", self.unjudged));
        view! {
            <dl class="haul-sums">
                <div>
                    <dt>"Spent"</dt>
                    <dd>{self.spent}</dd>
                </div>
                <div>
                    <dt>"Things"</dt>
                    <dd>{self.things}</dd>
                </div>
                <div>
                    <dt>"You keep, as judged"</dt>
                    <dd class:loss=self.is_loss>{self.keep}</dd>
                </div>
                {without.map(|without| view! { <div class="support">{without}</div> })}
            </dl>
        }
    }
}
