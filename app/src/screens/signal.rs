//! Whether the browser says that there is no network. It only decides a word on the strip: nothing here needs one.

use leptos::ev;
use leptos::prelude::*;

#[derive(Clone, Copy)]
struct Offline(RwSignal<bool>);

/// Follows the browser from now on.
pub fn provide_signal() {
    let offline = RwSignal::new(!window().navigator().on_line());
    let gone = window_event_listener(ev::offline, move |_| offline.set(true));
    let back = window_event_listener(ev::online, move |_| offline.set(false));
    on_cleanup(move || {
        gone.remove();
        back.remove();
    });
    provide_context(Offline(offline));
}

/// Whether there is no network.
pub fn use_offline() -> Signal<bool> {
    expect_context::<Offline>().0.into()
}
