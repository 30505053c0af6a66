//! What was said of a thing, when and on which device: nothing that was entered is ever dropped.

use crate::live::Live;
use std::cell::Cell;
use std::rc::Rc;

use haulwren_core::id::ThingId;
use haulwren_core::view::Said;
use leptos::task::spawn_local;

use crate::format;
use crate::notice::Notice;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, div, el, follow};

/// The list, read anew whenever the thing changes.
pub fn history(id: ThingId) -> El {
    let store = use_store();
    let said = Live::new(None::<Vec<Said>>);
    let asked = Rc::new(Cell::new(0_u32));
    // The history lies in the storage, outside of the page's signals; a late answer to an old question is dropped.
    follow(Box::new(move || {
        let has_all = store.all_read.get();
        store.read(|_| ());
        if !has_all {
            return;
        }
        let question = asked.get() + 1;
        asked.set(question);
        let asked = asked.clone();
        spawn_local(async move {
            let answer = store.history(id).await;
            if asked.get() != question || said.is_gone() {
                return;
            }
            match answer {
                Ok(changes) => said.set(Some(changes)),
                Err(fault) => {
                    let notice = Notice::storage("The history can’t be read.", &fault);
                    store.notice.set(Some(notice));
                }
            }
        });
    }));
    div("bare").show(move || {
        said.with(|said| match said {
            None => parts::status("Reading"),
            Some(said) => el("ol")
                .class("history")
                .with(said.iter().map(entry).collect::<Vec<_>>()),
        })
    })
}

fn entry(said: &Said) -> El {
    let when = el("p")
        .class("when")
        .with(format::day_at(said.at))
        .with(" ")
        .with(el("br"));
    let when = when
        .with(format::time(said.at))
        .with(" ")
        .with(el("br"))
        .with(said.device.as_str());
    let mut lines = el("dl");
    for (field, value) in &said.lines {
        lines = lines
            .with(el("dt").with(field.as_str()))
            .with(el("dd").with(value.as_str()));
    }
    el("li").with(when).with(lines)
}
