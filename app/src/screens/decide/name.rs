//! The sheet where the thing gets its name. It hangs from the top: the phone's own keyboard comes up from the bottom.

use leptos::prelude::*;

use super::Desk;
use crate::store::use_store;
use crate::ui::el::{El, el};
use crate::ui::field::{FieldSpec, field};
use crate::ui::sheet::sheet;

/// The sheet.
pub fn name_sheet(desk: Desk) -> El {
    let store = use_store();
    let close = Callback::new(move |()| desk.naming.set(false));
    let body = move || {
        let spec = FieldSpec {
            id: "thing-name",
            label: "Name of the thing",
            hint: "It can stay empty: buying never waits for a name.",
            autofocus: true,
            ..FieldSpec::default()
        };
        let name = Signal::derive(move || store.draft(|draft| draft.name.clone()));
        let typed = Callback::new(move |name| store.edit_draft(|draft| draft.name = name));
        let done = el("button")
            .attr("type", "submit")
            .class("press go")
            .with("Done");
        el("form")
            .class("name-form")
            .on("submit", move |event| {
                event.prevent_default();
                close.run(());
            })
            .with(field(spec, name, Signal::derive(|| None), typed))
            .with(done)
    };
    let title = Signal::derive(|| "What is it?".to_owned());
    sheet(desk.naming.into(), close, title, true, body)
}
