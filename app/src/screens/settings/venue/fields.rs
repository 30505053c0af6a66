//! The fields that the venue's page is made of besides those of every form: choices in a list, and plain keys.

use std::rc::Rc;

use haulwren_core::view::VenueInput;

use crate::screens::form::{self, number, words};
use crate::ui::el::{Do, El, Now, button, div, el, typed_text};

/// A text of the form.
pub type Text<'a> = form::Text<'a, VenueInput>;

pub const NAME: Text<'static> = words("venue-name", "Name of the venue", VenueInput::Name);

/// A field for a percentage.
pub const fn percent<'a>(id: &'a str, label: &'a str, input: VenueInput) -> Text<'a> {
    number(id, label, "%", input)
}

/// A choice among a few, in a list that opens.
pub fn pick(id: &str, label: &str, words: &[&str], chosen: Now<usize>, choose: Do<usize>) -> El {
    let mut select = el("select").attr("id", id);
    for (at, word) in words.iter().enumerate() {
        let option = el("option").attr("value", &at.to_string()).with(*word);
        select = select.with(option);
    }
    let heard = move |event| {
        if let Ok(at) = typed_text(&event).parse() {
            choose(at);
        }
    };
    // The value finds its option once they stand inside.
    let select = select
        .value_of(Rc::new(move || chosen().to_string()))
        .on("change", heard);
    div("field")
        .with(el("label").attr("for", id).with(label))
        .with(select)
}

/// A plain key.
pub fn key(word: &str, pressed: impl FnMut() + 'static) -> El {
    button("press").on_click(pressed).with(word)
}
