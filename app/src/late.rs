//! What a first verdict does not need is served as a module of its own: the pile, Haul, Set up, sample data. It is fetched once the first
//! screen stands, or when something of it is asked for. The worker keeps it like every other file.
//!
//! Which functions go there is for the build to find out: whatever only `further` below reaches.

use crate::live::Live;
use crate::route::Route;
use crate::store::Store;
use crate::ui::el::Nodes;
use haulwren_core::book::{Context, Edits, Refusal, State};
use haulwren_core::id::ThingId;
#[cfg(feature = "late")]
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::cell::OnceCell;
use web_sys::Blob;

/// The ways into what comes late.
#[derive(Clone, Copy)]
pub struct Further {
    /// Builds the screen of a route.
    pub screen: fn(Route) -> Nodes,
    /// Keeps a picture of a thing.
    pub add_photo: fn(Store, ThingId, Blob),
    /// What a step of the sample comes to; `None` after the last.
    pub sample: Sample,
}

/// Decides a step of the sample.
pub type Sample = fn(usize, &State, &mut Context<'_>) -> Option<Result<Vec<Edits>, Refusal>>;

/// How far it has come.
#[derive(Clone, Copy)]
pub enum Late {
    /// Not asked for yet, or under way.
    Coming,
    /// Here, for as long as the page lives.
    Here(Further),
    /// Could not be fetched.
    Missing,
}

thread_local! {
    static LATE: OnceCell<Live<Late>> = const { OnceCell::new() };
}

/// Makes ready to ask for it. Called once, where nothing is ever cleaned up.
pub fn follow() {
    let is_first = LATE.with(|late| late.set(Live::new(Late::Coming))).is_ok();
    debug_assert!(is_first, "made ready once");
}

/// How far it has come.
///
/// # Panics
/// Before it was made ready.
pub fn late() -> Live<Late> {
    let late = LATE.with(|late| late.get().copied());
    late.expect("made ready at the start")
}

/// Asks for it; `otherwise` says what it is when it can't be had.
pub fn ask(otherwise: Late) {
    leptos::task::spawn_local(async move {
        if fetched().await.is_none() {
            late().set(otherwise);
        }
    });
}

/// Fetches it, unless it is here. `None` when it can't be had.
pub async fn fetched() -> Option<Further> {
    if let Late::Here(further) = late().get_untracked() {
        return Some(further);
    }
    let come = come().await?;
    // Asked for twice: what stands already stays as it is.
    if !matches!(late().get_untracked(), Late::Here(_)) {
        late().set(Late::Here(come));
    }
    Some(come)
}

#[cfg(feature = "late")]
async fn come() -> Option<Further> {
    further().await.ok()
}

#[cfg(not(feature = "late"))]
#[allow(clippy::unused_async, reason = "the served build fetches it")]
async fn come() -> Option<Further> {
    Some(crate::screens::FURTHER)
}

/// The one way from here into the late module.
#[cfg(feature = "late")]
#[wasm_split(settings, fallible, wasm_split_path = leptos::wasm_split)]
#[allow(clippy::unnecessary_wraps, reason = "fetching is what can fail")]
fn further() -> Result<Further, SplitLoaderError> {
    Ok(crate::screens::FURTHER)
}
