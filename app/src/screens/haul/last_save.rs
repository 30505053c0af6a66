//! The undo bar, fed from the store.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::notice::Notice;
use crate::store::use_store;
use crate::ui::el::El;
use crate::ui::undo::undo_bar;

/// The bar; it shows once something was saved since the page was opened.
pub fn last_save() -> El {
    let store = use_store();
    let ten = RwSignal::new(None);
    let list = Callback::new(move |()| {
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
    });
    undo_bar(
        store.done.into(),
        ten.into(),
        list,
        Callback::new(move |save| store.undo(save)),
    )
}
