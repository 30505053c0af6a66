//! The undo bar, fed from the store.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::notice::Notice;
use crate::store::use_store;
use crate::ui::undo::UndoBar;

/// The bar; it shows once something was saved since the page was opened.
#[component]
pub fn LastSave() -> impl IntoView {
    let store = use_store();
    let ten = RwSignal::new(None);
    let list = move |()| {
        ten.set(None);
        spawn_local(async move {
            match store.last_ten().await {
                Ok(saves) => drop(ten.try_set(Some(saves))),
                Err(fault) => store.notice.set(Some(Notice::storage(
                    "The last saves can’t be read.",
                    &fault,
                ))),
            }
        });
    };
    view! { <UndoBar last=store.done ten on_list=list on_undo=move |save| store.undo(save) /> }
}
