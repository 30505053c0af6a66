//! The ways into what comes late (see `late` of the app). Everything that only this reaches is served in the late module.

use super::{haul, pile, settings, what};
use crate::late::Further;
use crate::route::Route;
use crate::store::Store;
use crate::ui::el::Nodes;
use haulwren_core::sample::sample;
use haulwren_core::view;
use leptos::task::spawn_local;

/// Them.
pub const FURTHER: Further = Further {
    screen,
    add_photo: Store::add_photo,
    what: what::inside,
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
