//! What a first verdict does not need is served as a module of its own: the pile, Haul, Set up, sample data. It is fetched once the first
//! screen stands, or when something of it is asked for. The worker keeps it like every other file.
//!
//! Which functions go there is for the build to find out: whatever only the loader reaches that is handed in (`screens/further.rs`).

use crate::live::Live;
use crate::notice::Notice;
use crate::route::Route;
use crate::shell::fault::Fault;
use crate::store::{Mending, Store, use_store};
use crate::ui::el::Nodes;
use haulwren_core::book::{Context, Edits, Refusal, State};
use haulwren_core::change::Change;
use haulwren_core::id::ThingId;
use haulwren_core::view::Done;
use js_sys::Promise;
use leptos::prelude::document;
use std::cell::{OnceCell, RefCell};
use std::pin::Pin;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, Element};

/// The ways into what comes late.
#[derive(Clone, Copy)]
pub struct Further {
    /// Builds the screen of a route.
    pub screen: fn(Route) -> Nodes,
    /// Keeps a picture of a thing.
    pub add_photo: fn(Store, ThingId, Blob),
    /// What stands on the sheet that asks what a thing is.
    pub what: fn(Live<bool>) -> Nodes,
    /// Writes all that is known anew, once the storage has failed.
    pub anew: fn(Store) -> Mending,
    /// Writes the book to a file and hands it out, for notices.
    pub save_copy: fn(Store),
    /// Turns this tab to sample data, or back.
    pub turn_to_sample: fn(Store, bool),
    /// Mends a stored book that does not read back, or opens it for reading only.
    pub mend: fn(Store, Fault),
    /// Begins to watch over what the trader should know of.
    pub watch: fn(Store),
    /// Says what a save did.
    pub describe: fn(&State, &[Change]) -> Option<Done>,
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

/// Fetches the late module. `None` when it can't be had.
pub type Loader = fn() -> Pin<Box<dyn Future<Output = Option<Further>>>>;

thread_local! {
    static LATE: OnceCell<(Live<Late>, Loader)> = const { OnceCell::new() };
    /// The style sheet that is being loaded, or stands.
    static SHEET: RefCell<Option<Sheet>> = const { RefCell::new(None) };
}

/// A style sheet, and whether it has come.
type Sheet = (Element, Promise);

/// Makes ready to ask for it by a loader. Called once, where nothing is ever cleaned up.
pub fn follow(loader: Loader) {
    let coming = (Live::new(Late::Coming), loader);
    let is_first = LATE.with(|late| late.set(coming)).is_ok();
    debug_assert!(is_first, "made ready once");
}

/// How far it has come.
///
/// # Panics
/// Before it was made ready.
pub fn late() -> Live<Late> {
    ready().0
}

fn ready() -> (Live<Late>, Loader) {
    let late = LATE.with(|late| late.get().copied());
    late.expect("made ready at the start")
}

/// Fetches it ahead. Nobody waits for it yet, so nothing is said when it can't be had: who comes to need it asks again, and who was told that it
/// is missing must not see it opened and missing once more.
pub fn ahead() {
    leptos::task::spawn_local(async {
        let _ = fetched().await;
    });
}

/// Asks for it, and notes when it can't be had.
pub fn ask() {
    leptos::task::spawn_local(async {
        if fetched().await.is_none() {
            late().set(Late::Missing);
        }
    });
}

/// Does something with it once it is here, or says that it can't be had.
pub fn then(act: impl FnOnce(Further, Store) + 'static) {
    leptos::task::spawn_local(async move {
        let store = use_store();
        match fetched().await {
            Some(further) => act(further, store),
            None => store.notice.set(Some(Notice::not_fetched())),
        }
    });
}

/// Fetches it, unless it is here. `None` when it can't be had.
pub async fn fetched() -> Option<Further> {
    if let Late::Here(further) = late().get_untracked() {
        return Some(further);
    }
    styles().await?;
    let come = (ready().1)().await?;
    // Asked for twice: what stands already stays as it is.
    if !matches!(late().get_untracked(), Late::Here(_)) {
        late().set(Late::Here(come));
        (come.watch)(use_store());
    }
    Some(come)
}

/// Waits until the late style sheet stands on the page, which it then says of itself. Who asks while it is being loaded waits for the same
/// one. `None` when it can't be had: it can be asked for again.
async fn styles() -> Option<()> {
    let known = SHEET.with_borrow(Clone::clone);
    let (link, loaded) = match known {
        Some(known) => known,
        None => load_styles()?,
    };
    if JsFuture::from(loaded).await.is_err() {
        link.remove();
        SHEET.take();
        return None;
    }
    link.set_attribute("data-late", "").ok()
}

/// Puts the late style sheet on the page.
fn load_styles() -> Option<Sheet> {
    let link = document().create_element("link").ok()?;
    for (name, value) in [("rel", "stylesheet"), ("href", "./late.css")] {
        link.set_attribute(name, value).ok()?;
    }
    let loaded = Promise::new(&mut |resolve, reject| {
        for (event, told) in [("load", resolve), ("error", reject)] {
            let heard = link.add_event_listener_with_callback(event, &told);
            debug_assert!(heard.is_ok());
        }
        let stands = document().head().map(|head| head.append_child(&link));
        debug_assert!(matches!(stands, Some(Ok(_))), "a page has a head");
    });
    SHEET.replace(Some((link.clone(), loaded.clone())));
    Some((link, loaded))
}
