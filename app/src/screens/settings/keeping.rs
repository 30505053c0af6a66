//! Where the book is kept, and a copy of it.

use crate::live::Live;
use leptos::task::spawn_local;

use super::bring::bring_in;
use super::send::send;
use crate::screens::parts;
use crate::shell::files::Left;
use crate::shell::scope;
use crate::store::{Standing, use_store};
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::icons::{Icon, sign};

const ON_DISK: &str = "Every save is on this device, in this browser. Clearing the browser’s data clears it too: save a copy elsewhere now and then.";
const SAMPLE: &str = "This is sample data, apart from any book of yours. All names, rates and prices are invented. It never goes into a file, and is laid out anew each time.";
const ONLY_READING: &str = "A part of the book can\u{2019}t be read, so it is open for reading only. Save a copy of the rest.";
const ANEW: &str = "The storage of this device had failed. All of the book was written anew and read back. Save a copy elsewhere now.";
const FAILED: &str = "The storage of this device has failed, and what it says can\u{2019}t be trusted. Save a copy now, and make room on the device.";
const NOWHERE: &str = "Nothing is kept on this device. Save a copy before you close the page.";

/// What is kept where, and the key that saves a copy.
pub fn keeping_safe() -> Nodes {
    let store = use_store();
    if scope::is_sample() {
        return [
            parts::line(SAMPLE),
            parts::key_sample(false, "Leave the sample"),
        ]
        .into();
    }
    let standing = store.standing();
    let kept = move || {
        let said = match standing.get() {
            Standing::Sample => SAMPLE,
            Standing::Kept | Standing::Due(_) => ON_DISK,
            Standing::Anew => ANEW,
            Standing::Failed => FAILED,
            Standing::Nowhere => NOWHERE,
            Standing::Reading => ONLY_READING,
        };
        said.to_owned()
    };
    let rescue = el("a").attr("href", "./rescue.html").with("rescue page");
    let hint = parts::support("If the app ever fails to start, the ").with(rescue);
    [
        el("p").text_of(kept),
        copy_key(),
        hint.with(" still writes your book to a file."),
        div("form flush").with(send()),
        parts::heading("A file from another device"),
        bring_in("Open a book file"),
        parts::key_sample(true, "Look around in a sample"),
    ]
    .into()
}

/// The key that saves a copy of the book, and how it left.
pub fn copy_key() -> El {
    let store = use_store();
    let told = Live::new("");
    let save = move || {
        spawn_local(async move {
            let said = match store.save_copy().await {
                Some(Left::Shared) => "The copy was handed over.",
                Some(Left::Downloaded) => "The copy is among your downloads.",
                Some(Left::Dismissed) => "No copy was saved: the sheet was closed.",
                // The notice says why.
                None => "",
            };
            told.set(said);
        });
    };
    let key = button("press")
        .attr("data-save-copy", "")
        .on_click(save)
        .with(sign(Icon::Save))
        .with("Save a copy");
    let told = el("p")
        .attr("role", "status")
        .text_of(move || told.get().to_owned());
    div("form flush").with([key, told])
}
