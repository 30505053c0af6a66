//! What the screens ask of the page around them: whether there is a network, whether the window is wide, and the strip.

use crate::live::Live;
use leptos::prelude::*;

use crate::shell::scope;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button, on_window};
use crate::ui::strip::strip;

#[derive(Clone, Copy)]
struct Around {
    offline: Live<bool>,
    wide: Live<bool>,
}

/// From this width on there is room beside the list, or beside the keypad. The style sheets turn at the same width.
const WIDE: &str = "(min-width: 900px)";

/// Follows the page from now on.
pub fn follow() {
    let is_wide = || {
        window()
            .match_media(WIDE)
            .ok()
            .flatten()
            .is_some_and(|query| query.matches())
    };
    let is_offline = || !window().navigator().on_line();
    let offline = Live::new(is_offline());
    let wide = Live::new(is_wide());
    for event in ["online", "offline"] {
        on_window(event, move |_| offline.set(is_offline()));
    }
    on_window("resize", move |_| {
        if wide.get_untracked() != is_wide() {
            wide.set(is_wide());
        }
    });
    provide_context(Around { offline, wide });
}

/// Whether the window is wide.
pub fn use_wide() -> Live<bool> {
    expect_context::<Around>().wide
}

/// The strip over a screen, with a title that follows signals.
pub fn titled(title: impl Fn() -> String + 'static) -> El {
    titled_with(title, ())
}

/// The same with something at the right.
pub fn titled_with(title: impl Fn() -> String + 'static, aside: impl Into<Nodes>) -> El {
    let store = use_store();
    let is_sample = scope::is_sample();
    let leave = is_sample.then(|| {
        button("press")
            .attr("data-leave-sample", "")
            .on_click(move || store.turn_to_sample(false))
            .with("Leave")
    });
    let aside = [aside.into(), leave.into()].into();
    strip(title, expect_context::<Around>().offline, is_sample, aside)
}
