//! The screens of `further` come after the others: Set up, and the pages of single lots, trips and things. A verdict needs none of them, so
//! the served build has them in a module of its own, which is fetched when one is opened first. The worker keeps it like every other file.
//!
//! Which functions go there is for the build to find out: whatever only `screens` below reaches.

use leptos::prelude::*;
#[cfg(feature = "late")]
use leptos::wasm_split::{SplitLoaderError, wasm_split};

#[cfg(not(feature = "late"))]
use super::further;
use super::page::titled;
use super::parts;
use crate::live::Live;
use crate::route::Route;
use crate::ui::el::{Nodes, div, el};
use crate::ui::notice::notice;

use std::rc::Rc;

/// Builds the screen of a route.
type Screens = fn(Route) -> Nodes;

/// How far the late screens have come.
#[derive(Clone, Copy)]
enum Late {
    /// Not asked for yet, or under way.
    Coming,
    /// Here, for as long as the page lives.
    Here(Screens),
    /// Could not be fetched.
    Missing,
}

/// Makes ready to ask for them.
pub fn follow() {
    provide_context(Live::new(at_first()));
}

/// Asks for them before they are opened: a new book needs them for its first venue.
pub fn expect_soon() {
    ask(expect_context::<Live<Late>>(), Late::Coming);
}

/// A late screen, or that it is being opened, or that it does not open. Follows which it is.
pub fn late(route: Route) -> Nodes {
    let late = expect_context::<Live<Late>>();
    let inside = match late.get() {
        Late::Here(screens) => return untrack(|| screens(route)),
        Late::Coming => {
            ask(late, Late::Missing);
            parts::status("Opening").class("pad")
        }
        Late::Missing => notice(
            "This page does not open.",
            "A part of the app could not be fetched. Look for signal and try again; if it stays so, reload the page.",
            "Try again",
            Rc::new(move |()| late.set(Late::Coming)),
        ),
    };
    let title = if route.is_haul() { "Haul" } else { "Set up" };
    el("section")
        .class("thing-page")
        .with([titled(|| title.to_owned()), div("scroll").with(inside)])
        .into()
}

#[cfg(feature = "late")]
fn at_first() -> Late {
    Late::Coming
}

#[cfg(not(feature = "late"))]
fn at_first() -> Late {
    Late::Here(further::screen)
}

/// Fetches them; what they are `otherwise`, when they can't be had.
#[cfg(feature = "late")]
fn ask(late: Live<Late>, otherwise: Late) {
    leptos::task::spawn_local(async move {
        let come = screens().await;
        // Asked for twice when the route changes meanwhile: what stands already stays as it is.
        if !matches!(late.get_untracked(), Late::Here(_)) {
            late.set(come.map_or(otherwise, Late::Here));
        }
    });
}

#[cfg(not(feature = "late"))]
fn ask(_: Live<Late>, _: Late) {}

/// The one way from here into the late module.
#[cfg(feature = "late")]
#[wasm_split(settings, fallible, wasm_split_path = leptos::wasm_split)]
#[allow(clippy::unnecessary_wraps, reason = "fetching is what can fail")]
fn screens() -> Result<Screens, SplitLoaderError> {
    Ok(super::further::screen)
}
