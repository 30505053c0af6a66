//! What was said of a thing, when and on which device: nothing that was entered is ever dropped.

use haulwren_core::id::ThingId;
use haulwren_core::view::Said;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::format;
use crate::notice::Notice;
use crate::store::use_store;

/// The list, read anew whenever the thing changes.
#[component]
pub fn History(id: ThingId) -> impl IntoView {
    let store = use_store();
    let said = RwSignal::new(None::<Vec<Said>>);
    let asked = StoredValue::new(0_u32);
    // The history lies in the storage, outside of the page's signals; a late answer to an old question is dropped.
    Effect::new(move || {
        let has_all = store.all_read.get();
        store.read(|_| ());
        if !has_all {
            return;
        }
        let question = asked.get_value() + 1;
        asked.set_value(question);
        spawn_local(async move {
            let answer = store.history(id).await;
            if asked.try_get_value() != Some(question) {
                return;
            }
            match answer {
                Ok(changes) => said.set(Some(changes)),
                Err(fault) => store
                    .notice
                    .set(Some(Notice::storage("The history can’t be read.", &fault))),
            }
        });
    });
    move || match said.get() {
        None => view! { <p role="status">"Reading"</p> }.into_any(),
        Some(said) => {
            view! { <ol class="history">{said.into_iter().map(entry).collect_view()}</ol> }
                .into_any()
        }
    }
}

fn entry(said: Said) -> impl IntoView {
    let lines = said
        .lines
        .into_iter()
        .map(|(field, value)| view! { <dt>{field}</dt><dd>{value}</dd> })
        .collect_view();
    view! {
        <li>
            <p class="when">
                {format::day_at(said.at)} <br /> {format::time(said.at)} <br /> {said.device}
            </p>
            <dl>{lines}</dl>
        </li>
    }
}
