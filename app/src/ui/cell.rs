//! A field that the keypad types into. It is a button: touching it or stepping into it with the keyboard moves the keypad there.

use haulwren_core::view::Field;
use leptos::prelude::*;

use web_sys::HtmlElement;

use super::el::{El, button, span};

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

impl CellText {
    fn said_as(&self, name: &str) -> String {
        let usual = if self.is_usual { ", usual" } else { "" };
        let fault = self
            .fault
            .as_deref()
            .map(|fault| format!(". {fault}"))
            .unwrap_or_default();
        let text = if self.text.is_empty() {
            "empty"
        } else {
            &self.text
        };
        format!("{name} {text}{usual}{fault}")
    }
}

/// Which cell.
#[derive(Clone, Copy, Debug)]
pub struct CellSpec {
    /// The field that it types into.
    pub field: Field,
    /// The word over it.
    pub word: &'static str,
    /// Its full name for those who hear it; empty when the word is enough.
    pub name: &'static str,
    /// Whether it is one of the two large ones.
    pub main: bool,
}

/// One field. `focus` is where the keypad types, and `on_go` moves it.
pub fn cell(
    spec: CellSpec,
    shown: Signal<CellText>,
    focus: Signal<Field>,
    on_go: Callback<Field>,
) -> El {
    let CellSpec {
        field,
        word,
        name,
        main,
    } = spec;
    let name = if name.is_empty() { word } else { name };
    let length = move || shown.with(|shown| shown.text.len());
    let cell = button(if main { "cell main" } else { "cell" });
    follow_keypad(
        cell.html().clone(),
        Memo::new(move |_| focus.get() == field),
    );
    cell.attr("data-field", field.name())
        .class_if("fresh", move || shown.with(|shown| shown.is_fresh))
        .class_if("usual", move || shown.with(|shown| shown.is_usual))
        .class_if("long", move || length() > 4)
        .class_if("longer", move || length() > 6)
        .state("aria-pressed", move || focus.get() == field)
        .attr_of("aria-invalid", move || {
            shown.with(|shown| shown.fault.as_ref().map(|_| "true".to_owned()))
        })
        .attr_of("aria-label", move || {
            Some(shown.with(|shown| shown.said_as(name)))
        })
        .on_click(move || on_go.run(field))
        .on("focus", move |_| {
            if focus.get_untracked() != field {
                on_go.run(field);
            }
        })
        .with(span("w").with(word))
        .with(span("n").text_of(move || shown.with(|shown| shown.text.clone())))
}

/// The page's own focus follows the keypad when it goes from field to field, so that the keyboard goes on from there. It is never taken
/// from anything else.
fn follow_keypad(cell: HtmlElement, is_typed_into: Memo<bool>) {
    Effect::new(move || {
        let on = document().active_element();
        let is_on_other =
            on.is_some_and(|on| on.has_attribute("data-field") && !cell.is_same_node(Some(&on)));
        if is_typed_into.get() && is_on_other {
            // Refused only for an element that can't be seen, and then there is nothing to follow.
            let _ = cell.focus();
        }
    });
}
