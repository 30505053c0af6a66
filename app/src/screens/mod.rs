//! Screens, one folder for each stage, and the frame around them: which one is open, the tabs, the notice.

mod decide;
mod first;
mod haul;
mod settings;
mod signal;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::notice::{Cure, Notice as Told};
use crate::route::{Route, use_routes};
use crate::store::{Phase, use_store};
use crate::ui::icons::Icon;
use crate::ui::notice::{Notice, Saving};
use crate::ui::tabs::{Tab, Tabs};

use signal::provide_signal;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    provide_signal();
    let store = use_store();
    let routes = use_routes();
    let current = Signal::derive(move || match routes.now() {
        Route::Decide => Some(0),
        Route::Haul | Route::Thing(_) => Some(1),
        Route::Settings | Route::Venue(_) => Some(2),
        Route::First => None,
    });
    let phase = store.phase;
    let is_ready = Memo::new(move |_| phase.with(|phase| *phase == Phase::Ready));
    let has_begun = Memo::new(move |_| store.read_setup(|book| book.currency().is_some()));
    let body = move || match (is_ready.get(), has_begun.get()) {
        (true, true) => screen(routes.now()).into_any(),
        (true, false) => view! { <first::First /> }.into_any(),
        (false, _) => view! { <Opening /> }.into_any(),
    };
    let tabs = vec![
        Tab {
            word: "Decide",
            icon: Icon::Decide,
            href: Route::Decide.href(),
        },
        Tab {
            word: "Haul",
            icon: Icon::Haul,
            href: Route::Haul.href(),
        },
        Tab {
            word: "Set up",
            icon: Icon::Setup,
            href: Route::Settings.href(),
        },
    ];
    view! {
        <div class="app">
            <main class="screen">
                {move || store.notice.get().map(told)}
                {body}
                <Saving saving=store.saving />
            </main>
            <Show when=move || is_ready.get() && has_begun.get()>
                <Tabs tabs=tabs.clone() current />
            </Show>
        </div>
    }
}

fn screen(route: Route) -> AnyView {
    match route {
        Route::Decide | Route::First => view! { <decide::Decide /> }.into_any(),
        Route::Haul => view! { <haul::Haul /> }.into_any(),
        Route::Thing(id) => view! { <haul::ThingPage id /> }.into_any(),
        Route::Settings => view! { <settings::Settings /> }.into_any(),
        Route::Venue(id) => view! { <settings::VenuePage id /> }.into_any(),
    }
}

/// An error with its one button.
pub(crate) fn told(notice: Told) -> impl IntoView {
    let store = use_store();
    let cure = notice.cure;
    let act = move |()| match cure {
        Cure::SaveCopy => spawn_local(async move {
            // Says by a notice of its own when no copy left.
            store.save_copy().await;
        }),
        Cure::Reload => reload(),
        Cure::Rescue => open_rescue(),
        Cure::Dismiss => store.notice.set(None),
    };
    view! { <Notice fact=notice.fact hint=notice.hint action=cure.label() on_action=Callback::new(act) /> }
}

fn reload() {
    // A refused reload leaves the page as it is, and the notice on it.
    let _ = window().location().reload();
}

fn open_rescue() {
    let _ = window().location().set_href("./rescue.html");
}

/// Before the book is open, or when it does not open.
#[component]
fn Opening() -> impl IntoView {
    let phase = use_store().phase;
    let line = move || {
        match phase.get() {
        Phase::Failed(notice) => told(notice).into_any(),
        Phase::Opening(Some((done, all))) if all > 0 => {
            view! { <p class="pad" role="status">{format!("Reading the book anew: {done} of {all}")}</p> }.into_any()
        }
        _ => view! { <p class="pad" role="status">"Opening your book"</p> }.into_any(),
    }
    };
    view! { <div class="scroll">{line}</div> }
}
