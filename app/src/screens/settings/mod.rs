//! Set up: venues, house rules and allowances, a copy of the book.

mod keeping;
mod rules;
mod venue;
mod venue_fields;

use haulwren_core::id::VenueId;
use leptos::prelude::*;

use super::haul::LastSave;
use super::signal::use_offline;
use crate::route::Route;
use crate::store::use_store;
use crate::ui::icons::{Icon, Sign};
use crate::ui::strip::Strip;

pub use venue::VenuePage;

/// The screen.
#[component]
pub fn Settings() -> impl IntoView {
    view! {
        <Strip title="Set up".to_owned() offline=use_offline() />
        <div class="scroll">
            <div class="form">
                <h2>"Venues"</h2>
                <Venues />
                <h2>"House rules"</h2>
                <rules::Rules />
                <h2>"Your book"</h2>
                <keeping::KeepingSafe />
            </div>
        </div>
        <LastSave />
    }
}

/// Every venue, with the usual one marked.
#[component]
fn Venues() -> impl IntoView {
    let store = use_store();
    let venues = Memo::new(move |_| {
        store.read_setup(|book| {
            let usual = book.usual_venue();
            book.venues()
                .map(|(id, venue)| {
                    (
                        id,
                        venue.name.clone().unwrap_or_default(),
                        Some(id) == usual,
                    )
                })
                .collect::<Vec<_>>()
        })
    });
    let row = |(id, name, is_usual): (VenueId, String, bool)| {
        view! {
            <a class="row" href=Route::Venue(Some(id)).href() data-venue=id.to_string()>
                <span class="what">
                    {name} " "
                    {is_usual.then(|| view! { <span class="mark">"usual"</span> })}
                </span>
                <Sign icon=Icon::Next />
            </a>
        }
    };
    view! {
        <Show when=move || venues.with(Vec::is_empty)>
            <p>"No venue yet. A verdict needs one: where would you sell?"</p>
        </Show>
        <div>
            <For each=move || venues.get() key=|venue| venue.clone() let(venue)>
                {row(venue)}
            </For>
        </div>
        <a class="press" href=Route::Venue(None).href()>
            <Sign icon=Icon::Plus />
            "Add a venue"
        </a>
    }
}
