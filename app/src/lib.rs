//! The shell: screens, storage and files around the pure core.
//!
//! In reading order: the browser's concerns, one file each; errors as people read them; what runs after a change, and values that screens follow; the store, where the book and the screens meet;
//! where the address leads; what comes late; parts of screens; screens.

mod shell;

mod notice;

mod follow;

mod live;

mod store;

mod route;

mod late;

mod format;

mod ui;

mod screens;

use leptos::prelude::*;

/// Starts the app on the page.
///
/// # Panics
/// When the page is not ours: it has no `#app`.
pub fn run() {
    // The boot script notices a panic, which is a trap, and offers reload and rescue. Served builds carry no texts of panics.
    #[cfg(debug_assertions)]
    std::panic::set_hook(Box::new(|info| leptos::logging::error!("{info}")));
    // Signals need a place to run their effects; a second start would be a mistake here, and there is none.
    let started = any_spawner::Executor::init_wasm_bindgen();
    debug_assert!(started.is_ok(), "started once");
    let owner = Owner::new();
    owner.with(|| {
        route::follow();
        late::follow(screens::load);
        screens::app().stand_in(&shell::page::root());
        store::use_store().open();
    });
    // The app stands as long as the page does.
    std::mem::forget(owner);
    shell::page::drop_frame();
}
