//! Small parts that several screens share.

use crate::late;
use crate::route::Route;
use crate::ui::el::{El, button, el};
use crate::ui::icons::{Icon, sign};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{File, HtmlInputElement};

/// A link that looks like a key.
pub fn link(class: &str, to: Route, icon: Icon, word: &str) -> El {
    el("a")
        .class(class)
        .attr("href", &to.href())
        .with(sign(icon))
        .with(word)
}

/// The link back to the screen above.
pub fn back(to: Route, word: &str) -> El {
    link("press back", to, Icon::Back, word)
}

/// The link to the next thing.
pub fn add_thing() -> El {
    link("press go", Route::Decide, Icon::Plus, "Thing")
}

/// A form. Sending it stays on the page.
pub fn form(class: &str, mut sent: impl FnMut() + 'static) -> El {
    el("form").class(class).on("submit", move |event| {
        event.prevent_default();
        sent();
    })
}

/// The key that sends a form.
pub fn submit(word: &str) -> El {
    el("button")
        .attr("type", "submit")
        .class("press go")
        .with(word)
}

/// A paragraph.
pub fn line(text: &str) -> El {
    el("p").with(text)
}

/// A paragraph that helps.
pub fn support(text: &str) -> El {
    line(text).class("support")
}

/// A paragraph that is read out when it appears or changes.
pub fn status(text: &str) -> El {
    line(text).attr("role", "status")
}

/// A heading within a screen.
pub fn heading(text: &str) -> El {
    el("h2").with(text)
}

/// The key that turns to sample data, or back.
pub fn key_sample(on: bool, word: &str) -> El {
    button("press")
        .attr("data-sample", if on { "in" } else { "out" })
        .on_click(move || late::then(move |further, store| (further.turn_to_sample)(store, on)))
        .with(word)
}

/// The file of an input that was just chosen.
pub fn chosen(input: &JsValue) -> Option<File> {
    let input = input.dyn_ref::<HtmlInputElement>()?;
    let file = input.files()?.get(0);
    // The same file can be chosen again.
    input.set_value("");
    file
}
