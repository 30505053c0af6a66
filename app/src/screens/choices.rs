//! Between what the trader has to choose: what several devices said of a field, each with the key that takes it.

use std::rc::Rc;

use haulwren_core::book::State;
use haulwren_core::change::RecordKey;
use haulwren_core::view::{Choice, Dispute, differs};
use leptos::prelude::untrack;
use leptos::task::spawn_local;

use crate::format;
use crate::live::{Live, worked};
use crate::notice::Notice;
use crate::screens::ladder::ladder;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};

/// What has to be chosen of one record, where it is looked at; nothing when there is nothing.
pub fn of_record(record: RecordKey) -> El {
    let store = use_store();
    let asked = record.clone();
    // With the changes that differ: another file may add one to a field that was in dispute before.
    let fields = worked(move || {
        store.read(|book| {
            let fields = book.disputed_of(&asked).into_iter();
            let parties = |field: &str| book.parties(&asked, field).map(<[_]>::to_vec);
            let with_parties = |field: String| (parties(&field), field);
            fields.map(with_parties).collect::<Vec<_>>()
        })
    });
    div("bare").show(move || {
        let each = |field: String| {
            let sentence = store.read(|book| differs(book, &record, &field));
            el("section")
                .class("needs")
                .attr("data-dispute", &field)
                .with(sign(Icon::Fork))
                .with(parts::line(&sentence))
                .with(choices(store, &record, &field))
        };
        let fields = fields.get().into_iter().map(|(_, field)| field);
        untrack(|| fields.map(each).collect::<Vec<El>>())
    })
}

/// What was said, each with the key that takes it. Nothing is chosen beforehand.
pub fn choices(store: Store, record: &RecordKey, field: &str) -> El {
    let told = Live::new(None::<Rc<Dispute>>);
    let (record, field) = (record.clone(), field.to_owned());
    spawn_local(async move {
        let found = store.dispute(&record, &field).await;
        if told.is_gone() {
            return;
        }
        match found {
            Ok(found) => told.set(found.map(Rc::new)),
            Err(fault) => {
                let notice = Notice::storage("What was said can\u{2019}t be read.", &fault);
                store.notice.set(Some(notice));
            }
        }
    });
    div("choices").show(move || -> Nodes {
        told.with(|told| match told {
            None => parts::status("Reading").into(),
            Some(dispute) => {
                let all = dispute.choices.iter().enumerate();
                let keys: Vec<El> = all
                    .map(|(place, choice)| one_choice(store, dispute, place, choice))
                    .collect();
                let stays = parts::support("Both stay on record, whichever you use.");
                let currency = store.read_setup(State::currency);
                let keys = match (&dispute.alike, currency) {
                    (Some(alike), Some(currency)) => {
                        ladder(alike, &dispute.choices, keys, currency)
                    }
                    _ => div("choice-keys").with(keys),
                };
                [keys, stays].into()
            }
        })
    })
}

fn one_choice(store: Store, dispute: &Rc<Dispute>, place: usize, choice: &Choice) -> El {
    let mut by = el("p").class("support");
    for spoken in &choice.by {
        by = by.with(el("b").with(spoken.device.as_str())).with(format!(
            ", {} {} ",
            format::day_at(spoken.at),
            format::time(spoken.at)
        ));
    }
    let edits = choice
        .edits
        .iter()
        .map(|(label, words)| parts::support(&format!("{label}: {words}")));
    let edits: Vec<El> = edits.collect();
    let used = choice
        .used
        .then(|| span("mark").with("used until you choose"));
    let key: El = if choice.readable {
        let dispute = dispute.clone();
        let settle = move || {
            if let Some(command) = dispute.settle(place) {
                store.dispatch(command, |_| {});
            }
        };
        button("press strong")
            .attr("data-choice", &place.to_string())
            .on_click(settle)
            .with("Use ")
            .with(el("b").with(choice.words.as_str()))
    } else {
        parts::line(&choice.words)
            .with(" ")
            .with(span("support").with("Only a newer version reads this: choose it there."))
    };
    div("choice-of").with(by).with(edits).with(key).with(used)
}
