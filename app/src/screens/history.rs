//! What was said of a record, when and on which device: nothing that was entered is ever dropped, and any of it can be had again.

use crate::follow::follow;
use crate::live::Live;

use haulwren_core::change::RecordKey;
use haulwren_core::view::{Earlier, Saying};
use leptos::task::spawn_local;

use crate::format;
use crate::notice::Notice;
use crate::screens::parts;
use crate::screens::questions::Questions;
use crate::store::{Store, use_store};
use crate::ui::el::{El, button, div, el};

/// The list of what was said of some records, read anew whenever the book changes.
pub fn history(records: impl Fn() -> Vec<RecordKey> + 'static) -> El {
    let store = use_store();
    let said = Live::new(None::<Vec<Saying>>);
    let questions = Questions::default();
    // The history lies in the storage, outside of the page's signals.
    follow(Box::new(move || {
        let has_all = store.all_read.get();
        store.read(|_| ());
        if !has_all {
            return;
        }
        let is_last = questions.ask();
        let records = records();
        spawn_local(async move {
            let answer = store.history(&records).await;
            if !is_last() || said.is_gone() {
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
                .with(said.iter().map(|one| entry(store, one)).collect::<Vec<_>>()),
        })
    })
}

/// The history under its heading, folded away until it is asked for.
pub fn folded(record: RecordKey) -> El {
    let open = Live::new(false);
    el("details")
        .class("history-fold")
        .on("toggle", move |_| open.set(true))
        .with(el("summary").class("press").with("History"))
        .show(move || {
            open.get().then(|| {
                let record = record.clone();
                history(move || vec![record.clone()])
            })
        })
}

fn entry(store: Store, said: &Saying) -> El {
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
    for line in &said.lines {
        lines = lines
            .with(el("dt").with(line.label.as_str()))
            .with(el("dd").with(line.words.as_str()).with(back(store, line)));
    }
    el("li").with(when).with(lines)
}

/// The key that gives a field this value again.
fn back(store: Store, line: &Earlier) -> Option<El> {
    let command = line.back.clone()?;
    let name = format!("Use again: {}, {}", line.label, line.words);
    let key = button("press")
        .attr("data-back", &line.field)
        .attr("aria-label", &name)
        .on_click(move || store.dispatch(command.clone(), |_| {}))
        .with("Use again");
    Some(key)
}
