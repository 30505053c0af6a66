//! What needs the trader: everything that no rule can settle, each with what mends it.

use std::rc::Rc;

use haulwren_core::change::RecordKey;
use haulwren_core::id::{CardId, ContainerId, KindId, LotId, StopId, ThingId, TripId, VenueId};
use haulwren_core::view::{Attention, Choice, Cure, Dispute, attention};
use leptos::task::spawn_local;

use crate::format;
use crate::live::Live;
use crate::notice::Notice;
use crate::route::Route;
use crate::screens::last_save::last_save;
use crate::screens::page::titled_with;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};
use crate::ui::notice::empty;

/// The page.
pub fn page() -> Nodes {
    let store = use_store();
    let list = move || -> Nodes {
        if !store.all_read.get() {
            return parts::status("Reading").into();
        }
        let list = store.read(attention);
        if list.is_empty() {
            return empty(
                "Nothing needs you. What two devices say differently is told here.",
                (),
            )
            .into();
        }
        let rows: Vec<El> = list.iter().map(|one| row(store, one)).collect();
        rows.into()
    };
    [
        titled_with(
            || "Needs you".to_owned(),
            parts::back(Route::Settings, "Set up"),
        ),
        div("scroll").with(div("form attention").show(list)),
        last_save(),
    ]
    .into()
}

fn row(store: Store, one: &Attention) -> El {
    let row = el("section").class("needs").attr("data-needs", "");
    let sentence = parts::line(&one.sentence);
    match &one.cure {
        Cure::Settle(record, field) => row
            .attr("data-dispute", field)
            .with(sign(Icon::Fork))
            .with(sentence)
            .with(choices(store, record, field)),
        Cure::Tell(command) => {
            let command = command.clone();
            let key = button("press")
                .attr("data-cure", "")
                .on_click(move || store.dispatch((*command).clone(), |_| {}))
                .with(one.key.as_str());
            row.with(sign(Icon::Changed)).with(sentence).with(key)
        }
        Cure::Look(record) => row
            .with(sign(Icon::Changed))
            .with(sentence)
            .with(parts::link("press", route_of(record), Icon::Next, &one.key)),
    }
}

/// Where a record can be looked at.
fn route_of(record: &RecordKey) -> Route {
    let id = record.id;
    match record.kind.as_str() {
        "thing" => Route::Thing(ThingId(id)),
        "lot" => Route::Lot(LotId(id)),
        "stop" => Route::Stop(StopId(id)),
        "trip" => Route::Trip(TripId(id)),
        "venue" => Route::Venue(Some(VenueId(id))),
        "card" => Route::Card(Some(CardId(id))),
        "container" => Route::Container(Some(ContainerId(id))),
        "kind" => Route::Kind(Some(KindId(id))),
        _ => Route::Settings,
    }
}

/// What was said, each with the key that takes it. Nothing is chosen beforehand.
fn choices(store: Store, record: &RecordKey, field: &str) -> El {
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
                [div("choice-keys").with(keys), stays].into()
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
