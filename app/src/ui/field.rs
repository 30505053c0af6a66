//! Fields of a form: a text or a number with its label, a hint and what is wrong with it, all read out together.

use leptos::prelude::*;

use super::el::{El, div, el, span};

/// What is typed into a field.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Entry {
    /// Words.
    #[default]
    Words,
    /// A number, on the phone's keys for numbers.
    Number,
}

/// How a field is labelled.
#[derive(Clone, Copy, Debug, Default)]
pub struct FieldSpec<'a> {
    /// A name that no other field on the page has.
    pub id: &'static str,
    /// What is asked.
    pub label: &'a str,
    /// A line of help; may be empty.
    pub hint: &'a str,
    /// What stands behind the entry, such as a percent sign; may be empty.
    pub unit: &'a str,
    /// What is typed.
    pub entry: Entry,
    /// Whether a sheet puts the focus here when it opens.
    pub autofocus: bool,
}

/// A field: its text, what is wrong with it as a sentence, and where each change goes.
pub fn field(
    spec: FieldSpec<'_>,
    value: Signal<String>,
    fault: Signal<Option<String>>,
    on_input: Callback<String>,
) -> El {
    let FieldSpec {
        id,
        label,
        hint,
        unit,
        entry,
        autofocus,
    } = spec;
    let (hint_id, fault_id) = (format!("{id}-hint"), format!("{id}-fault"));
    let hint = (!hint.is_empty()).then(|| span("hint").attr("id", &hint_id).with(hint));
    let described = {
        let (hint_id, fault_id) = (hint.is_some().then_some(hint_id), fault_id.clone());
        move || {
            let fault_id = fault.with(Option::is_some).then(|| fault_id.clone());
            match (&hint_id, fault_id) {
                (Some(hint), Some(fault)) => Some(format!("{hint} {fault}")),
                (hint, fault) => fault.or_else(|| hint.clone()),
            }
        }
    };
    let is_number = entry == Entry::Number;
    let mut input = el("input")
        .attr("id", id)
        .attr("type", "text")
        .attr("autocomplete", "off");
    input = input.attr("inputmode", if is_number { "decimal" } else { "text" });
    if is_number {
        input = input.class("number");
    }
    if autofocus {
        input = input.attr("autofocus", "");
    }
    let input = input
        .value_of(move || value.get())
        .attr_of("aria-invalid", move || {
            fault.with(|fault| fault.as_ref().map(|_| "true".to_owned()))
        })
        .attr_of("aria-describedby", described)
        .on_input(move |text| on_input.run(text));
    div("field")
        .with(el("label").attr("for", id).with(label))
        .with(hint)
        .with(span("with-unit").with(input).with(unit))
        .show(move || {
            fault
                .get()
                .map(|fault| span("fault").attr("id", &fault_id).with(fault))
        })
}

/// A box to tick. `id` is a name that no other field on the page has.
pub fn check(id: &'static str, label: &str, ticked: Signal<bool>, on_tick: Callback<bool>) -> El {
    let input = el("input")
        .attr("id", id)
        .attr("type", "checkbox")
        .checked_of(move || ticked.get());
    div("check")
        .with(input.on("change", move |event| {
            on_tick.run(event_target_checked(&event));
        }))
        .with(el("label").attr("for", id).with(label))
}
