//! What needs the trader: everything that no rule can settle, each with what mends it.

use haulwren_core::view::{Attention, Cure, attention};

use crate::route::Route;
use crate::screens::choices::choices;
use crate::screens::last_save::last_save;
use crate::screens::page::titled_with;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el};
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
            .with(parts::link(
                "press",
                Route::of(record),
                Icon::Next,
                &one.key,
            )),
    }
}
