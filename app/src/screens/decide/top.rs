//! What stands over the tray: the rail, the venues and the fields; or, covered, the asking figure alone.

use haulwren_core::appraise::Judged;
use haulwren_core::id::VenueId;
use haulwren_core::view::{DecideView, Field};
use leptos::prelude::*;

use super::Desk;
use super::cells::Cells;
use crate::route::Route;
use crate::screens::haul::LastSave;
use crate::screens::signal::use_offline;
use crate::store::use_store;
use crate::ui::rail::{PriceRail, RailFacts};
use crate::ui::strip::Strip;
use crate::ui::venue_card::{VenueCard, VenueFacts};

/// Everything that the seller should not read.
#[component]
pub fn Top(desk: Desk) -> impl IntoView {
    let store = use_store();
    let is_idle = Memo::new(move |_| store.draft(haulwren_core::view::DecideDraft::is_empty));
    view! {
        <div class="decide-top">
            <Strip title="Worth it?".to_owned() offline=use_offline() />
            <div class="decide-rail">
                <Rail desk />
            </div>
            <div class="decide-low">
                <Venues desk />
            </div>
            // Once the next thing is being typed, the room is the rail's; Undo then waits on Haul.
            <Show when=move || is_idle.get()>
                <LastSave />
            </Show>
        </div>
        <Cells desk />
    }
}

/// The rail, or what is still needed to draw it.
#[component]
fn Rail(desk: Desk) -> impl IntoView {
    let view = use_store().decide_view();
    let facts = Memo::new(move |_| {
        view.with(|view| {
            let view = view.as_ref()?;
            view.appraisal
                .judged
                .as_ref()
                .map(|judged: &Judged| RailFacts::of(judged, view.currency, false))
        })
    });
    let has_facts = Memo::new(move |_| facts.with(Option::is_some));
    let missing = move || {
        view.with(|view| {
            let missing = &view.as_ref()?.appraisal.missing;
            let lines = missing
                .iter()
                .map(|missing| view! { <p>{missing.sentence()}</p> });
            Some(lines.collect_view())
        })
    };
    let rail = move || {
        let first = facts.get_untracked()?;
        // The rail stays on the page while its facts change.
        let shown = Memo::new(move |_| facts.get().unwrap_or_else(|| first.clone()));
        Some(
            view! { <PriceRail facts=shown on_touch=move |touched| desk.opened.set(Some(touched)) /> },
        )
    };
    let blank = move || {
        view! {
            <div class="rail-empty">
                <div role="status">{missing}</div>
                <i></i>
                <span class="hidden" data-verdict="none"></span>
            </div>
        }
    };
    move || {
        if has_facts.get() {
            rail().into_any()
        } else {
            blank().into_any()
        }
    }
}

/// Every venue, best first.
#[component]
fn Venues(desk: Desk) -> impl IntoView {
    let store = use_store();
    let view = store.decide_view();
    let ids = move || {
        view.with(|view| {
            view.as_ref()
                .map(|view| view.venues.iter().map(|card| card.id).collect::<Vec<_>>())
        })
        .unwrap_or_default()
    };
    let card = move |id: VenueId| {
        let facts = Memo::new(move |_| view.with(|view| facts_of(view.as_ref()?, id)));
        let first = facts.get_untracked()?;
        let shown = Memo::new(move |_| facts.get().unwrap_or_else(|| first.clone()));
        let choose = move |()| store.edit_draft(|draft| draft.venue = Some(id));
        Some(view! { <VenueCard facts=shown on_choose=choose /> })
    };
    let fault = Memo::new(move |_| {
        desk.refused.get().or_else(|| {
            view.with(|view| {
                view.as_ref()?
                    .faults
                    .first()
                    .map(|(_, fault)| fault.clone())
            })
        })
    });
    view! {
        {move || match fault.get() {
            Some(fault) => view! { <p class="fault" role="status">{fault}</p> }.into_any(),
            None => view! { <p class="label" id="by-venue">"You keep, by venue"</p> }.into_any(),
        }}
        <div class="venues" role="radiogroup" aria-label="You keep, by venue">
            <For each=ids key=|id| *id let(id)>
                {card(id)}
            </For>
        </div>
        <Show when=move || ids().is_empty()>
            <a class="press" href=Route::Venue(None).href()>"Add a venue"</a>
        </Show>
    }
}

fn facts_of(view: &DecideView, id: VenueId) -> Option<VenueFacts> {
    let card = view.venues.iter().find(|card| card.id == id)?;
    Some(VenueFacts {
        name: card.name.clone(),
        keep: card.keep,
        arrangement: card.arrangement,
        post_in: card.post_in,
        is_judged: card.judged,
        currency: view.currency,
    })
}

/// The asking figure alone.
#[component]
pub fn Covered() -> impl IntoView {
    let store = use_store();
    let ask = Memo::new(move |_| store.draft(|draft| draft.text(Field::Ask).to_owned()));
    view! {
        <div class="covered" role="group" aria-label="Covered">
            <span
                class="covered-figure"
                class:long=move || ask.with(|ask| ask.len() > 5)
                class:longer=move || ask.with(|ask| ask.len() > 8)
            >
                {ask}
            </span>
        </div>
    }
}
