//! The ways into what comes late (see `late` of the app), and the one way from here to there. Everything that only it reaches is served in
//! the late module.

use super::{haul, pile, settings, what};
use crate::late::Further;
use crate::route::Route;
use crate::store::Store;
use crate::ui::el::Nodes;
use haulwren_core::sample::sample;
use haulwren_core::view;
use leptos::task::spawn_local;
#[cfg(feature = "late")]
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::pin::Pin;

/// Fetches them.
pub fn load() -> Pin<Box<dyn Future<Output = Option<Further>>>> {
    Box::pin(come())
}

#[cfg(feature = "late")]
async fn come() -> Option<Further> {
    further().await.ok()
}

#[cfg(not(feature = "late"))]
#[allow(clippy::unused_async, reason = "the served build fetches them")]
async fn come() -> Option<Further> {
    Some(FURTHER)
}

/// The one way from here into the late module.
#[cfg(feature = "late")]
#[wasm_split(settings, fallible, wasm_split_path = leptos::wasm_split)]
#[allow(clippy::unnecessary_wraps, reason = "fetching is what can fail")]
fn further() -> Result<Further, SplitLoaderError> {
    Ok(FURTHER)
}

/// Them.
const FURTHER: Further = Further {
    screen,
    add_photo: Store::add_photo,
    what: what::inside,
    anew: Store::anew,
    // Says by a notice of its own when no copy left.
    save_copy: |store| {
        spawn_local(async move {
            store.save_copy().await;
        });
    },
    turn_to_sample: Store::turn_to_sample,
    mend: Store::mend,
    watch: Store::watch,
    describe: view::describe,
    sample: |step, state, context| {
        let command = sample(step, state, context.at)?;
        Some(state.decide(&command, context))
    },
};

fn screen(route: Route) -> Nodes {
    match route {
        Route::Pile => pile::pile().into(),
        route if route.is_haul() => haul::haul(),
        route => settings::screen(route),
    }
}
