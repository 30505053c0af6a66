//! A late screen, or that it is being opened, or that it does not open.

use std::rc::Rc;

use leptos::prelude::untrack;

use super::page::titled;
use super::parts;
use crate::late::{Late, ask, late};
use crate::route::Route;
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::notice::notice;

/// The screen of a route. Follows whether it has come.
pub fn screen(route: Route) -> Nodes {
    let inside = match late().get() {
        Late::Here(further) => return untrack(|| (further.screen)(route)),
        Late::Coming => {
            ask();
            parts::status("Opening")
                .class("pad")
                .attr("data-opening", "")
        }
        Late::Missing => missing(),
    };
    let title = match route {
        Route::Pile => "The pile",
        Route::Devices => "Devices",
        Route::Attention => "Needs you",
        route if route.is_haul() => "Haul",
        _ => "Set up",
    };
    el("section")
        .class("thing-page")
        .with([titled(|| title.to_owned()), div("scroll").with(inside)])
        .into()
}

/// That it could not be fetched, and a key that tries again.
pub fn missing() -> El {
    notice(
        "This page does not open.",
        "A part of the app could not be fetched. Look for signal and try again; if it stays so, reload the page.",
        "Try again",
        Rc::new(|()| late().set(Late::Coming)),
    )
}
