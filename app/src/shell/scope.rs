//! What our databases, caches, locks and channels are called: own prefix, then the path that the app is served under, so that two
//! copies on one host never meet.

/// The directory of the page's address, such as `/` or `/sub/path/`.
pub fn path() -> String {
    let path = leptos::prelude::window()
        .location()
        .pathname()
        .unwrap_or_default();
    let end = path.rfind('/').map_or(0, |stroke| stroke + 1);
    if end == 0 {
        "/".to_owned()
    } else {
        path[..end].to_owned()
    }
}

/// The book's database.
pub fn database() -> String {
    format!("haulwren:{}", path())
}

/// A lock or channel of ours.
pub fn named(what: &str) -> String {
    format!("haulwren:{}:{what}", path())
}
