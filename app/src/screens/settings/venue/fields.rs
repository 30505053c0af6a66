//! The fields that the venue's page is made of: texts, choices in a list, ticks, and what is wrong with what has no text.

use std::rc::Rc;

use haulwren_core::view::{VenueForm, VenueInput};

use super::desk::Desk;
use crate::ui::el::{Do, El, Now, button, div, el, span, typed_text};
use crate::ui::field::{self, Entry, FieldSpec, field};

/// A text of the form.
#[derive(Clone, Copy)]
pub struct Text<'a> {
    pub id: &'a str,
    pub label: &'a str,
    pub hint: &'a str,
    pub unit: &'a str,
    pub entry: Entry,
    pub input: VenueInput,
}

pub const NAME: Text<'static> = words("venue-name", "Name of the venue", VenueInput::Name);

/// A field for words.
pub const fn words<'a>(id: &'a str, label: &'a str, input: VenueInput) -> Text<'a> {
    Text {
        id,
        label,
        hint: "",
        unit: "",
        entry: Entry::Words,
        input,
    }
}

/// A field for an amount.
pub const fn amount<'a>(id: &'a str, label: &'a str, input: VenueInput) -> Text<'a> {
    Text {
        entry: Entry::Number,
        ..words(id, label, input)
    }
}

/// A field for a percentage.
pub const fn percent<'a>(id: &'a str, label: &'a str, input: VenueInput) -> Text<'a> {
    Text {
        unit: "%",
        ..amount(id, label, input)
    }
}

/// A field of the form at hand.
pub fn text(desk: Desk, text: &Text<'_>) -> El {
    let Text {
        id,
        label,
        hint,
        unit,
        entry,
        input,
    } = *text;
    let typed = move |typed: String| {
        desk.edit(|form| {
            if let Some(place) = form.text_mut(input) {
                *place = typed;
            }
        });
    };
    let spec = FieldSpec {
        id,
        label,
        hint,
        unit,
        entry,
        autofocus: false,
    };
    field(
        spec,
        Rc::new(move || desk.text(input)),
        Rc::new(move || desk.fault(input)),
        Rc::new(typed),
    )
}

/// Fields beside each other, as far as there is room.
pub fn row(desk: Desk, texts: &[Text<'_>]) -> El {
    let mut row = div("pair");
    for one in texts {
        row = row.with(text(desk, one));
    }
    row
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

/// A box to tick for a part of the form.
pub fn tick(
    desk: Desk,
    id: &str,
    label: &str,
    read: impl Fn(&VenueForm) -> bool + 'static,
    write: impl Fn(&mut VenueForm, bool) + 'static,
) -> El {
    field::check(
        id,
        label,
        Rc::new(move || desk.form.with(&read)),
        Rc::new(move |on| desk.edit(|form| write(form, on))),
    )
}

/// What is wrong with something that has no text of its own. It takes the focus, like a field that is wrong.
pub fn fault_line(desk: Desk, input: VenueInput) -> El {
    div("bare").show(move || {
        let line = |fault: String| span("fault").attr("role", "alert").with(fault);
        desk.fault(input).map(line)
    })
}

/// A plain key.
pub fn key(word: &str, pressed: impl FnMut() + 'static) -> El {
    button("press").on_click(pressed).with(word)
}
