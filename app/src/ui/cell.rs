//! A field that the keypad types into. It is a button: touching it or stepping into it with the keyboard moves the keypad there.

use haulwren_core::view::Field;
use leptos::prelude::*;

/// What a cell shows.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CellText {
    /// What is typed, or stands in for it.
    pub text: String,
    /// Whether the text only stands in: the usual amount, used while nothing is typed.
    pub is_usual: bool,
    /// Whether the next digit starts it anew.
    pub is_fresh: bool,
    /// What is wrong with it, as a sentence.
    pub fault: Option<String>,
}

/// One field.
#[component]
pub fn Cell(
    /// Which field.
    field: Field,
    /// The word over it.
    word: &'static str,
    /// Its full name for those who hear it; the word when that is enough.
    #[prop(default = "")]
    name: &'static str,
    /// What it shows.
    #[prop(into)]
    shown: Signal<CellText>,
    /// The field that the keypad types into.
    #[prop(into)]
    focus: Signal<Field>,
    /// Moves the keypad here.
    #[prop(into)]
    on_go: Callback<Field>,
    /// Whether it is one of the two large ones.
    #[prop(default = false)]
    main: bool,
) -> impl IntoView {
    let shown = Memo::new(move |_| shown.get());
    let text = move || shown.with(|shown| shown.text.clone());
    let length = move || shown.with(|shown| shown.text.len());
    let label = move || {
        shown.with(|shown| {
            let name = if name.is_empty() { word } else { name };
            let usual = if shown.is_usual { ", usual" } else { "" };
            let fault = shown
                .fault
                .as_deref()
                .map(|fault| format!(". {fault}"))
                .unwrap_or_default();
            let text = if shown.text.is_empty() {
                "empty"
            } else {
                &shown.text
            };
            format!("{name} {text}{usual}{fault}")
        })
    };
    view! {
        <button
            type="button"
            class="cell"
            class:main=main
            class:fresh=move || shown.with(|shown| shown.is_fresh)
            class:usual=move || shown.with(|shown| shown.is_usual)
            class:long=move || { length() > 4 }
            class:longer=move || { length() > 6 }
            data-field=field.name()
            aria-pressed=move || if focus.get() == field { "true" } else { "false" }
            aria-invalid=move || shown.with(|shown| shown.fault.as_ref().map(|_| "true"))
            aria-label=label
            on:click=move |_| on_go.run(field)
            on:focus=move |_| {
                if focus.get_untracked() != field {
                    on_go.run(field);
                }
            }
        >
            <span class="w">{word}</span>
            <span class="n">{text}</span>
        </button>
    }
}
