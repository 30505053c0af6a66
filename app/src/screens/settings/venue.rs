//! One venue's page: its form, whether it is the usual one, and taking it away.

use haulwren_core::book::{Command, State};
use haulwren_core::id::VenueId;
use haulwren_core::money::Currency;
use haulwren_core::view::{VenueForm, keeps_of_twenty};
use leptos::ev::SubmitEvent;
use leptos::prelude::*;

use super::super::haul::LastSave;
use super::super::signal::use_offline;
use super::venue_fields::VenueFields;
use crate::format;
use crate::route::{Route, use_routes};
use crate::store::use_store;
use crate::ui::icons::{Icon, Sign};
use crate::ui::strip::Strip;

/// The page; without an id it adds a venue.
#[component]
pub fn VenuePage(id: Option<VenueId>) -> impl IntoView {
    let store = use_store();
    let routes = use_routes();
    let key = StoredValue::new(id.map_or_else(|| "new".to_owned(), |id| id.to_string()));
    let stored = Memo::new(move |_| {
        let today = store.today();
        let known = id
            .zip(today)
            .and_then(|(id, today)| store.read_setup(|book| VenueForm::of(book, id, today)));
        known.unwrap_or_default()
    });
    let form = Memo::new(move |_| {
        key.with_value(|key| store.venue_draft(key))
            .unwrap_or_else(|| stored.get())
    });
    let edit = Callback::new(move |form: VenueForm| {
        key.with_value(|key| store.keep_venue_draft(key, Some(form)));
    });
    let tried = RwSignal::new(false);
    let currency = Memo::new(move |_| store.read_setup(State::currency));
    let complaints = Memo::new(move |_| {
        let read = currency
            .get()
            .map(|currency| form.with(|form| form.read(currency)));
        read.and_then(Result::err)
            .filter(|_| tried.get())
            .unwrap_or_default()
    });
    let save = move |event: SubmitEvent| {
        event.prevent_default();
        tried.set(true);
        let Some(currency) = currency.get_untracked() else {
            return;
        };
        let Ok(setup) = form.get_untracked().read(currency) else {
            return;
        };
        // Whoever adds the first venue came to weigh something up.
        let is_first = untrack(|| store.read_setup(|book| book.venues().next().is_none()));
        store.dispatch(Command::SaveVenue { id, setup }, move |saved| {
            if saved {
                key.with_value(|key| store.keep_venue_draft(key, None));
                routes.replace(if is_first {
                    Route::Decide
                } else {
                    Route::Settings
                });
            }
        });
    };
    let sample = move || {
        let currency = currency.get()?;
        let setup = form.with(|form| form.read(currency)).ok()?;
        let (price, cut, left) = keeps_of_twenty(&setup, currency);
        Some(sentence(price, cut, left, currency))
    };
    view! {
        <Strip
            title=Signal::derive(move || {
                let name = stored.with(|stored| stored.name.clone());
                if name.is_empty() { "A new venue".to_owned() } else { name }
            })
            offline=use_offline()
        />
        <div class="scroll">
            <form class="form" on:submit=save>
                <a class="press back" href=Route::Settings.href()>
                    <Sign icon=Icon::Back />
                    "Set up"
                </a>
                <VenueFields form edit complaints />
                <p class="support" role="status">{sample}</p>
                <button type="submit" class="press go">"Save venue"</button>
                {id.map(|id| view! { <Standing id /> })}
            </form>
        </div>
        <LastSave />
    }
}

fn sentence(
    price: haulwren_core::money::Money,
    cut: haulwren_core::money::Money,
    left: haulwren_core::money::Money,
    currency: Currency,
) -> String {
    let say = |money| format::amount(money, currency);
    let left = if left.is_negative() {
        format!("you lose {} before you pay for the thing", say(left.abs()))
    } else {
        format!("{} is left before you pay for the thing", say(left))
    };
    format!(
        "Of a sale at {}, the venue takes {}, and after postage and packing {left}.",
        say(price),
        say(cut)
    )
}

/// Whether it is the usual venue, and the key that takes it away.
#[component]
fn Standing(id: VenueId) -> impl IntoView {
    let store = use_store();
    let routes = use_routes();
    let is_usual = Memo::new(move |_| store.read_setup(|book| book.usual_venue() == Some(id)));
    let use_it = move |_| store.dispatch(Command::UseVenue(id), |_| {});
    let remove = move |_| {
        store.dispatch(Command::RemoveVenue(id), move |saved| {
            if saved {
                routes.replace(Route::Settings);
            }
        });
    };
    view! {
        <h2>"This venue"</h2>
        <Show
            when=move || is_usual.get()
            fallback=move || view! { <button type="button" class="press" on:click=use_it>"Make it the usual one"</button> }
        >
            <p>"Your usual venue: things are judged on it unless you choose another."</p>
        </Show>
        <button type="button" class="press" on:click=remove>"Remove this venue"</button>
    }
}
