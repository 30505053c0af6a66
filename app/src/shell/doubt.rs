//! Whether the storage can be trusted: from any fault of it on it can't, until all that is known was written anew and read back.
//!
//! Why: one family of browsers goes on writing behind a record that a full disk had cut off, and reads it all back as long as it runs. At its
//! next start the log does not read, and all of it is thrown away, what was called saved since included.

use super::scope;
use leptos::prelude::window;
use std::cell::Cell;

thread_local! {
    static RAISED: Cell<bool> = const { Cell::new(false) };
    static HEARD: Cell<Option<fn()>> = const { Cell::new(None) };
}

/// The note that outlives a reload: what this page saw, the next one can't see.
const NOTE: &str = "doubt";

/// Calls `heard` at each doubt.
pub fn hear(heard: fn()) {
    HEARD.set(Some(heard));
}

/// The storage has failed. Sample data needs no guard: it can be laid out anew.
pub fn raise() {
    if scope::is_sample() {
        return;
    }
    RAISED.set(true);
    let noted = window().local_storage().ok().flatten();
    if let Some(Err(error)) = noted.map(|notes| notes.set_item(&scope::named(NOTE), "1")) {
        leptos::logging::warn!("a reload will not know that the storage failed: {error:?}");
    }
    if let Some(heard) = HEARD.get() {
        heard();
    }
}

/// Whether it has failed, before this page, in another tab or here, and nothing was written anew since.
pub fn is_raised() -> bool {
    let noted = window().local_storage().ok().flatten();
    let noted = noted.and_then(|notes| notes.get_item(&scope::named(NOTE)).ok()?);
    RAISED.get() || (noted.is_some() && !scope::is_sample())
}

/// All is written anew.
pub fn settle() {
    RAISED.set(false);
    let noted = window().local_storage().ok().flatten();
    if let Some(Err(error)) = noted.map(|notes| notes.remove_item(&scope::named(NOTE))) {
        leptos::logging::warn!("the doubt stays noted: {error:?}");
    }
}
