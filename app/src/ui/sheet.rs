//! A sheet that opens over the screen. The browser's own dialog: it keeps the focus inside, and closes by Escape, by the
//! back gesture where the browser offers it, by a touch beside it, and by its own button.

use crate::follow::follow_later;
use crate::live::Worked;
use std::rc::Rc;

use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlDialogElement};

use super::el::{Do, El, Nodes, Now, button, div, el};

/// The sheet. What is in it exists only while it is open. `at_top` hangs it from the top, where the phone's own keyboard can't cover
/// it. `on_close` is called when it wants to close.
pub fn sheet<N: Into<Nodes>>(
    open: Worked<bool>,
    on_close: &Do<()>,
    title: Now<String>,
    at_top: bool,
    inside: impl Fn() -> N + 'static,
) -> El {
    let inside = Rc::new(move || inside().into());
    sheet_by(open, on_close, title, at_top, inside)
}

fn sheet_by(
    open: Worked<bool>,
    on_close: &Do<()>,
    title: Now<String>,
    at_top: bool,
    inside: Now<Nodes>,
) -> El {
    let (by_key, by_itself, by_touch) = (on_close.clone(), on_close.clone(), on_close.clone());
    let whole = move || {
        let (title, close, inside) = (title.clone(), by_key.clone(), inside.clone());
        let title = el("h2").attr("id", "sheet-title").text_of(move || title());
        let head = div("sheet-head")
            .with(title)
            .with(button("press").on_click(move || close(())).with("Close"));
        [head, div("bare").show(move || inside())]
    };
    let dialog = el("dialog")
        .class(if at_top { "sheet top" } else { "sheet" })
        .attr("aria-labelledby", "sheet-title")
        .on("close", move |_| {
            if open.get_untracked() {
                by_itself(());
            }
        })
        .on("click", move |event| {
            if is_beside(&event) {
                by_touch(());
            }
        })
        .show(move || open.get().then(&whole));
    open_and_close(dialog.element().clone().unchecked_into(), open);
    dialog
}

/// The dialog fills its own box; a touch on the dialog itself is one beside what is in it.
fn is_beside(event: &Event) -> bool {
    let target = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    target.is_some_and(|element| element.tag_name() == "DIALOG")
}

/// A dialog can only be opened by calling it; this carries the signal over to the element, and nothing back. It runs after drawing, when the
/// dialog stands on the page.
fn open_and_close(dialog: HtmlDialogElement, open: Worked<bool>) {
    follow_later(Box::new(move || match (open.get(), dialog.open()) {
        (true, false) => {
            if let Err(error) = dialog.show_modal() {
                leptos::logging::warn!("a sheet has left the page: {error:?}");
            }
        }
        (false, true) => dialog.close(),
        _ => {}
    }));
}
