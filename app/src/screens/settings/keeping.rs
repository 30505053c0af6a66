//! Where the book is kept, and a copy of it.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::shell::files::Left;
use crate::store::{Keeping, use_store};
use crate::ui::icons::{Icon, Sign};

/// What is kept where, and the key that saves a copy.
#[component]
pub fn KeepingSafe() -> impl IntoView {
    let store = use_store();
    let told = RwSignal::new("");
    let save = move |_| {
        spawn_local(async move {
            let said = match store.save_copy().await {
                Some(Left::Shared) => "The copy was handed over.",
                Some(Left::Downloaded) => "The copy is among your downloads.",
                Some(Left::Dismissed) => "No copy was saved: the sheet was closed.",
                // The notice says why.
                None => "",
            };
            told.try_set(said);
        });
    };
    let kept = move || match store.keeping.get() {
        Keeping::Disk => {
            "Every save is on this device, in this browser. Clearing the browser’s data clears it too: save a copy elsewhere now and then."
        }
        Keeping::Memory => "Nothing is kept on this device. Save a copy before you close the page.",
    };
    view! {
        <p>{kept}</p>
        <button type="button" class="press" data-save-copy="" on:click=save>
            <Sign icon=Icon::Save />
            "Save a copy"
        </button>
        <p role="status">{told}</p>
        <p class="support">
            "If the app ever fails to start, the " <a href="./rescue.html">"rescue page"</a> " still writes your book to a file."
        </p>
    }
}
