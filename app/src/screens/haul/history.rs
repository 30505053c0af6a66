//! What was said of a thing, when and on which device: nothing that was entered is ever dropped.

use haulwren_core::id::ThingId;
use haulwren_core::view::Said;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::format;
use crate::notice::Notice;
use crate::store::use_store;
use crate::ui::el::{El, div, el};

/// The list, read anew whenever the thing changes.
pub fn history(id: ThingId) -> El {
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
    div("bare").show(move || match said.get() {
        None => el("p").attr("role", "status").with("Reading"),
        Some(said) => el("ol")
            .class("history")
            .with(said.into_iter().map(entry).collect::<Vec<_>>()),
    })
}

fn entry(said: Said) -> El {
    let line = |(field, value): (String, String)| [el("dt").with(field), el("dd").with(value)];
    let lines: Vec<_> = said.lines.into_iter().map(line).collect();
    let when = el("p")
        .class("when")
        .with(format::day_at(said.at))
        .with(el("br"))
        .with(format::time(said.at))
        .with(el("br"))
        .with(said.device);
    el("li").with(when).with(el("dl").with(lines))
}
