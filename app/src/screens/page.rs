//! What the screens ask of the page around them: whether there is a network, whether the window is wide, and the strip.

use leptos::ev;
use leptos::prelude::*;

use crate::ui::el::El;
use crate::ui::strip::strip;

#[derive(Clone, Copy)]
struct Around {
    offline: RwSignal<bool>,
    wide: RwSignal<bool>,
}

/// From this width on there is room beside the list, or beside the keypad. The style sheets turn at the same width.
const WIDE: &str = "(min-width: 900px)";

/// Follows the page from now on.
pub fn follow() {
    let offline = RwSignal::new(!window().navigator().on_line());
    let is_wide = || {
        window()
            .match_media(WIDE)
            .ok()
            .flatten()
            .is_some_and(|query| query.matches())
    };
    let wide = RwSignal::new(is_wide());
    let gone = window_event_listener(ev::offline, move |_| offline.set(true));
    let back = window_event_listener(ev::online, move |_| offline.set(false));
    let resized = window_event_listener(ev::resize, move |_| {
        if wide.get_untracked() != is_wide() {
            wide.set(is_wide());
        }
    });
    on_cleanup(move || {
        gone.remove();
        back.remove();
        resized.remove();
    });
    provide_context(Around { offline, wide });
}

/// Whether the window is wide.
pub fn use_wide() -> Signal<bool> {
    expect_context::<Around>().wide.into()
}

/// The strip over a screen, with a title that follows signals. Cash joins it once there is a purse.
pub fn titled(title: impl Fn() -> String + Send + Sync + 'static) -> El {
    let offline = expect_context::<Around>().offline;
    strip(
        Signal::derive(title),
        offline.into(),
        Signal::derive(|| None),
    )
}
