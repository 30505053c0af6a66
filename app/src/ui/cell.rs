//! A field that the keypad types into. It is a button: touching it or stepping into it with the keyboard moves the keypad there.

use crate::live::Worked;
use haulwren_core::view::Field;
use leptos::prelude::document;
use web_sys::HtmlElement;

use super::el::{Do, El, button, follow_later, span};

/// What a cell shows.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CellText {
    /// What is typed.
    pub text: String,
    /// Whether the next digit starts it anew.
    pub is_fresh: bool,
    /// What is wrong with it, as a sentence.
    pub fault: Option<String>,
}

impl CellText {
    fn said_as(&self, name: &str) -> String {
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
        format!("{name} {text}{fault}")
    }

    fn class(&self, main: bool) -> String {
        let marks = [
            (main, " main"),
            (self.is_fresh, " fresh"),
            (self.text.len() > 4, " long"),
            (self.text.len() > 6, " longer"),
        ];
        let mut class = "cell".to_owned();
        for (is_so, mark) in marks {
            if is_so {
                class += mark;
            }
        }
        class
    }
}

/// Which cell.
#[derive(Clone, Copy, Debug)]
pub struct CellSpec {
    /// The field that it types into.
    pub field: Field,
    /// The word over it.
    pub word: &'static str,
    /// Its full name for those who hear it; it ends with the word.
    pub name: &'static str,
    /// Whether it is one of the two large ones.
    pub main: bool,
}

/// One field. `is_typed_into` says whether the keypad types here, and `on_go` moves it.
pub fn cell(
    spec: CellSpec,
    shown: Worked<CellText>,
    is_typed_into: Worked<bool>,
    on_go: Do<()>,
) -> El {
    let CellSpec {
        field,
        word,
        name,
        main,
    } = spec;
    let (clicked, stepped_into) = (on_go.clone(), on_go);
    let cell = button("")
        .attr("data-field", field.name())
        .attr_of("class", move || Some(shown.with(|text| text.class(main))))
        .state("aria-pressed", move || is_typed_into.get())
        .attr_of("aria-invalid", move || {
            let is_wrong = shown.with(|text| text.fault.is_some());
            is_wrong.then(|| "true".to_owned())
        })
        .attr_of("aria-label", move || {
            Some(shown.with(|text| text.said_as(name)))
        })
        .on_click(move || clicked(()))
        .on("focus", move |_| {
            if !is_typed_into.get_untracked() {
                stepped_into(());
            }
        })
        .with(span("w").with(word))
        .with(" ")
        .with(span("n").text_of(move || shown.with(|text| text.text.clone())));
    follow_keypad(cell.html().clone(), is_typed_into);
    cell
}

/// The page's own focus follows the keypad when it goes from field to field, so that the keyboard goes on from there. It is never taken
/// from anything else.
fn follow_keypad(cell: HtmlElement, is_typed_into: Worked<bool>) {
    follow_later(Box::new(move || {
        let on = document().active_element();
        let is_on_other =
            on.is_some_and(|on| on.has_attribute("data-field") && !cell.is_same_node(Some(&on)));
        if is_typed_into.get() && is_on_other {
            // Refused only for an element that can't be seen, and then there is nothing to follow.
            let _ = cell.focus();
        }
    }));
}
