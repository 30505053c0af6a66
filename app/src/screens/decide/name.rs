//! The sheet where the thing gets its name. It hangs from the top: the phone's own keyboard comes up from the bottom.

use leptos::prelude::*;

use super::Desk;
use crate::store::use_store;
use crate::ui::field::Field;
use crate::ui::sheet::Sheet;

/// The sheet.
#[component]
pub fn NameSheet(desk: Desk) -> impl IntoView {
    let store = use_store();
    let name = Signal::derive(move || store.draft(|draft| draft.name.clone()));
    let typed = move |name| store.edit_draft(|draft| draft.name = name);
    let done = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        desk.naming.set(false);
    };
    view! {
        <Sheet open=desk.naming on_close=move |()| desk.naming.set(false) title="What is it?".to_owned() at_top=true>
            <form class="name-form" on:submit=done>
                <Field
                    id="thing-name"
                    label="Name of the thing"
                    hint="It can stay empty: buying never waits for a name."
                    value=name
                    on_input=typed
                    autofocus=true
                />
                <button type="submit" class="press go">"Done"</button>
            </form>
        </Sheet>
    }
}
