//! Fields of a form: a text or a number with its label, a hint and what is wrong with it, all read out together.

use leptos::prelude::*;

/// What is typed into a field.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Entry {
    /// Words.
    #[default]
    Words,
    /// A number, on the phone's keys for numbers.
    Number,
}

/// A field.
#[component]
pub fn Field(
    /// A name that no other field on the page has.
    id: &'static str,
    /// What is asked.
    #[prop(into)]
    label: String,
    /// A line of help; may be empty.
    #[prop(into, optional)]
    hint: String,
    /// What stands behind the entry, such as a percent sign; may be empty.
    #[prop(into, optional)]
    unit: String,
    /// What is typed.
    #[prop(optional)]
    entry: Entry,
    /// The text.
    #[prop(into)]
    value: Signal<String>,
    /// Called with the new text at every change.
    #[prop(into)]
    on_input: Callback<String>,
    /// What is wrong with it, as a sentence.
    #[prop(into, optional)]
    fault: Signal<Option<String>>,
    /// Whether a sheet puts the focus here when it opens.
    #[prop(default = false)]
    autofocus: bool,
) -> impl IntoView {
    let hint_id = format!("{id}-hint");
    let fault_id = format!("{id}-fault");
    let has_hint = !hint.is_empty();
    let described = {
        let (hint_id, fault_id) = (hint_id.clone(), fault_id.clone());
        move || match (has_hint, fault.with(Option::is_some)) {
            (true, true) => Some(format!("{hint_id} {fault_id}")),
            (true, false) => Some(hint_id.clone()),
            (false, true) => Some(fault_id.clone()),
            (false, false) => None,
        }
    };
    let is_number = entry == Entry::Number;
    view! {
        <div class="field">
            <label for=id>{label}</label>
            {has_hint.then(|| view! { <span class="hint" id=hint_id>{hint}</span> })}
            <span class="with-unit">
                <input
                    id=id
                    type="text"
                    class:number=is_number
                    inputmode=if is_number { "decimal" } else { "text" }
                    autocomplete="off"
                    autofocus=autofocus
                    prop:value=value
                    aria-invalid=move || fault.with(Option::is_some).then_some("true")
                    aria-describedby=described
                    on:input=move |event| on_input.run(event_target_value(&event))
                />
                {unit}
            </span>
            {move || fault.get().map(|fault| view! { <span class="fault" id=fault_id.clone()>{fault}</span> })}
        </div>
    }
}

/// A box to tick.
#[component]
pub fn Check(
    /// A name that no other field on the page has.
    id: &'static str,
    /// What is asked.
    #[prop(into)]
    label: String,
    /// Whether it is ticked.
    #[prop(into)]
    ticked: Signal<bool>,
    /// Called with the new state.
    #[prop(into)]
    on_tick: Callback<bool>,
) -> impl IntoView {
    view! {
        <div class="check">
            <input id=id type="checkbox" prop:checked=ticked on:change=move |event| on_tick.run(event_target_checked(&event)) />
            <label for=id>{label}</label>
        </div>
    }
}
