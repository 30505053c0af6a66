//! A field that the keypad types into. It is a button: touching it or stepping into it with the keyboard moves the keypad there.

use haulwren_core::view::Field;

use super::el::{Do, El, button, span};
use super::kept::Kept;

/// What a cell shows.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CellText {
    /// What is typed.
    pub text: String,
    /// Whether the keypad types here.
    pub is_typed_into: bool,
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

/// One field on the page.
pub struct Cell {
    /// The button.
    pub whole: El,
    spec: CellSpec,
    button: Kept,
    text: Kept,
}

impl Cell {
    /// A field that shows nothing yet; `on_touch` is called when it is touched, `on_focus` when the keyboard steps into it.
    pub fn new(spec: CellSpec, on_touch: Do<()>, on_focus: Do<()>) -> Self {
        let text = span("n");
        let whole = button("")
            .attr("data-field", spec.field.name())
            .on_click(move || on_touch(()))
            .on("focus", move |_| on_focus(()))
            .with(span("w").with(spec.word))
            .with(" ")
            .with(text.clone());
        Self {
            spec,
            button: Kept::new(&whole),
            text: Kept::new(&text),
            whole,
        }
    }

    /// Shows what is so now.
    pub fn draw(&self, shown: &CellText) {
        let CellSpec { name, main, .. } = self.spec;
        let pressed = if shown.is_typed_into { "true" } else { "false" };
        let is_wrong = shown.fault.is_some();
        self.button.set("class", Some(&shown.class(main)));
        self.button.set("aria-pressed", Some(pressed));
        self.button.set("aria-invalid", is_wrong.then_some("true"));
        self.button.set("aria-label", Some(&shown.said_as(name)));
        self.text.set_text(&shown.text);
    }
}
