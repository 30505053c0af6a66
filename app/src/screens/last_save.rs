//! The undo bar, fed from the store.

use crate::live::Live;
use std::rc::Rc;

use leptos::task::spawn_local;

use super::photo_key::photo_key;
use crate::notice::Notice;
use crate::store::use_store;
use crate::ui::el::El;
use crate::ui::undo::undo_bar;

/// The bar; it shows once something was saved since the page was opened.
pub fn last_save() -> El {
    let store = use_store();
    let ten = Live::new(None);
    let list = move |()| {
        ten.set(None);
        spawn_local(async move {
            match store.last_ten().await {
                // The bar may have gone in the meantime.
                Ok(saves) => ten.set(Some(saves)),
                Err(fault) => {
                    let notice = Notice::storage("The last saves can’t be read.", &fault);
                    store.notice.set(Some(notice));
                }
            }
        });
    };
    undo_bar(
        store.done,
        ten,
        Rc::new(list),
        Rc::new(move |save| store.undo(save)),
        Rc::new(|done: &haulwren_core::view::Done| {
            done.thing.map(|thing| photo_key(thing, "Photo"))
        }),
    )
}
