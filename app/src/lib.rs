//! The shell: screens, storage and files around the pure core.
//!
//! In reading order: the browser's concerns, one file each; errors as people read them; the store, where the book and the screens meet;
//! where the address leads; parts of screens; screens.

mod shell;

mod notice;

mod store;

mod route;

mod format;

mod ui;

mod screens;

use leptos::prelude::*;

/// Starts the app on the page.
///
/// # Panics
/// When the page is not ours: it has no `#app`.
pub fn run() {
    shell::page::stop_on_panic();
    let store = store::Store::new();
    let root = shell::page::root();
    mount_to(root, move || {
        provide_context(store);
        provide_context(route::Routes::follow());
        view! { <screens::App/> }
    })
    .forget();
    shell::page::drop_frame();
    store.open();
}
