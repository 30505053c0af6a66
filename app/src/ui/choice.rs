//! A radio group: joined keys, round only at the two ends.

use leptos::prelude::*;

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

/// The group.
#[component]
pub fn ChoiceKeys<T>(
    /// What is asked.
    #[prop(into)]
    legend: String,
    /// A name that no other group on the page has.
    name: &'static str,
    /// The choices.
    choices: Vec<Choice<T>>,
    /// The one that is chosen.
    #[prop(into)]
    chosen: Signal<T>,
    /// Called with the new choice.
    #[prop(into)]
    on_choose: Callback<T>,
    /// Whether the keys stand on top of each other.
    #[prop(default = false)]
    stacked: bool,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let key = move |choice: Choice<T>| {
        let (mine, chooses) = (choice.value.clone(), choice.value);
        view! {
            <label>
                <input
                    type="radio"
                    name=name
                    prop:checked=move || chosen.get() == mine
                    on:change=move |_| on_choose.run(chooses.clone())
                />
                <span class="key-face">
                    {choice.word}
                    {(!choice.hint.is_empty()).then(|| view! { <small>{choice.hint}</small> })}
                </span>
            </label>
        }
    };
    view! {
        <fieldset class="choice" class:stacked=stacked>
            <legend>{legend}</legend>
            <div class="keys">{choices.into_iter().map(key).collect_view()}</div>
        </fieldset>
    }
}
