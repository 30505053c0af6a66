//! A radio group: joined keys, round only at the two ends.

use leptos::prelude::*;

use super::el::{El, div, el, span};

/// One choice.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Choice<T> {
    /// What it stands for.
    pub value: T,
    /// Its word.
    pub word: String,
    /// A line under it; may be empty.
    pub hint: String,
}

impl<T> Choice<T> {
    /// A choice with its word and a line under it.
    pub fn new(value: T, word: &str, hint: &str) -> Self {
        Self {
            value,
            word: word.to_owned(),
            hint: hint.to_owned(),
        }
    }
}

/// The group. `name` is one that no other group on the page has; `stacked` keys stand on top of each other.
pub fn choice_keys<T>(
    legend: &str,
    name: &'static str,
    stacked: bool,
    choices: Vec<Choice<T>>,
    chosen: Signal<T>,
    on_choose: Callback<T>,
) -> El
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let key = move |choice: Choice<T>| {
        let (mine, chooses) = (choice.value.clone(), choice.value);
        let input = el("input").attr("type", "radio").attr("name", name);
        let input = input
            .checked_of(move || chosen.get() == mine)
            .on("change", move |_| on_choose.run(chooses.clone()));
        let hint = (!choice.hint.is_empty()).then(|| el("small").with(choice.hint));
        el("label")
            .with(input)
            .with(span("key-face").with(choice.word).with(hint))
    };
    el("fieldset")
        .class(if stacked { "choice stacked" } else { "choice" })
        .with(el("legend").with(legend))
        .with(div("keys").with(choices.into_iter().map(key).collect::<Vec<_>>()))
}
