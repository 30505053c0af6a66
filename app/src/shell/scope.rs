//! What our databases, caches, locks and channels are called: own prefix, then the path that the app is served under, so that two
//! copies on one host never meet. While this tab looks at sample data, everything of the book has names apart.

use leptos::prelude::window;

/// The directory of the page's address, such as `/` or `/sub/path/`.
pub fn path() -> String {
    let path = window().location().pathname().unwrap_or_default();
    let end = path.rfind('/').map_or(0, |stroke| stroke + 1);
    if end == 0 {
        "/".to_owned()
    } else {
        path[..end].to_owned()
    }
}

/// The book's database, or the sample's.
pub fn database() -> String {
    named_by(if is_sample() { ":sample" } else { "" })
}

/// A lock or channel of the book.
pub fn named(what: &str) -> String {
    let sample = if is_sample() { ":sample" } else { "" };
    named_by(&[sample, ":", what].concat())
}

/// What this device has whichever book is open.
pub fn shared(what: &str) -> String {
    named_by(&[":", what].concat())
}

fn named_by(end: &str) -> String {
    ["haulwren:", &path(), end].concat()
}

/// Whether this tab looks at sample data. It ends with the tab: who comes back another day finds the own book.
pub fn is_sample() -> bool {
    let storage = window().session_storage().ok().flatten();
    let noted = storage.and_then(|storage| storage.get_item(&shared("sample")).ok()?);
    noted.is_some()
}

/// Turns to sample data, or back; it counts from the next load of the page on. Whether the browser took it.
pub fn turn_to_sample(on: bool) -> bool {
    let storage = window().session_storage().ok().flatten();
    let key = shared("sample");
    let noted = storage.map(|storage| {
        if on {
            storage.set_item(&key, "1")
        } else {
            storage.remove_item(&key)
        }
    });
    matches!(noted, Some(Ok(())))
}
