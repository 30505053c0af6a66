//! Fields of a form: a text or a number with its label, a hint and what is wrong with it, all read out together.

use leptos::prelude::event_target_checked;

use super::el::{Do, El, Now, div, el, span};

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
    pub id: &'a str,
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
    value: Now<String>,
    fault: Now<Option<String>>,
    on_input: Do<String>,
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
    let has_hint = !hint.is_empty();
    let hint = has_hint.then(|| span("hint").attr("id", &hint_id).with(hint));
    let (is_wrong, described_by) = (fault.clone(), fault.clone());
    let about_fault = fault_id.clone();
    let described = move || {
        let hint = has_hint.then_some(hint_id.as_str());
        let fault = described_by().map(|_| about_fault.as_str());
        let all: Vec<&str> = hint.into_iter().chain(fault).collect();
        (!all.is_empty()).then(|| all.join(" "))
    };
    let is_number = entry == Entry::Number;
    // A spelling check may fetch word lists, or hand what is typed to another host.
    let mut input = el("input")
        .attr("id", id)
        .attr("type", "text")
        .attr("spellcheck", "false")
        .attr("autocomplete", "off");
    input = input.attr("inputmode", if is_number { "decimal" } else { "text" });
    if is_number {
        input = input.class("number");
    }
    if autofocus {
        input = input.attr("autofocus", "");
    }
    let input = input
        .value_of(value)
        .attr_of("aria-invalid", move || {
            is_wrong().map(|_| "true".to_owned())
        })
        .attr_of("aria-describedby", described)
        .on_input(move |text| on_input(text));
    div("field")
        .with(el("label").attr("for", id).with(label))
        .with(hint)
        .with(span("with-unit").with(input).with(unit))
        .show(move || fault().map(|fault| span("fault").attr("id", &fault_id).with(fault)))
}

/// A box to tick. `id` is a name that no other field on the page has.
pub fn check(id: &str, label: &str, ticked: Now<bool>, on_tick: Do<bool>) -> El {
    let input = el("input")
        .attr("id", id)
        .attr("type", "checkbox")
        .checked_of(ticked);
    div("check")
        .with(input.on("change", move |event| {
            on_tick(event_target_checked(&event));
        }))
        .with(el("label").attr("for", id).with(label))
}
