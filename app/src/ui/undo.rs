//! The undo bar: what was saved last, a key that takes it back, and the last ten. It has no countdown.

use haulwren_core::view::Done;
use leptos::prelude::*;

use super::el::{El, Nodes, button, div, el, span};
use super::icons::{Icon, sign};
use super::sheet::sheet;
use crate::format;

/// The bar, which shows while there is a last save. `ten` are the last ten, newest first, each with whether it can still be undone,
/// `None` while they are being read; `on_list` asks for them; `on_undo` takes a save back by its first number.
pub fn undo_bar(
    last: Signal<Option<Done>>,
    ten: Signal<Option<Vec<(Done, bool)>>>,
    on_list: Callback<()>,
    on_undo: Callback<u64>,
) -> El {
    let listed = RwSignal::new(false);
    let undo = Callback::new(move |save| {
        listed.set(false);
        on_undo.run(save);
    });
    let show_ten = move || {
        on_list.run(());
        listed.set(true);
    };
    let bar = move |done: Done| {
        el("section")
            .class("undo")
            .attr("data-undo", "")
            .attr("aria-label", "Last save")
            .with(el("p").attr("role", "status").with(done.sentence))
            .with(button("press").on_click(show_ten).with("Last ten"))
            .with(undo_key("press strong", done.save, undo))
    };
    let rows = move || -> Nodes {
        match ten.get() {
            None => el("p").attr("role", "status").with("Reading").into(),
            Some(ten) => ten
                .into_iter()
                .map(|(done, can)| row(done, can, undo))
                .collect::<Vec<_>>()
                .into(),
        }
    };
    let title = Signal::derive(|| "Last ten saves".to_owned());
    let close = Callback::new(move |()| listed.set(false));
    div("bare").show(move || last.get().map(bar)).with(sheet(
        listed.into(),
        close,
        title,
        false,
        move || el("ul").show(rows),
    ))
}

fn undo_key(class: &str, save: u64, undo: Callback<u64>) -> El {
    button(class)
        .on_click(move || undo.run(save))
        .with(sign(Icon::Undo))
        .with("Undo")
}

fn row(done: Done, can: bool, undo: Callback<u64>) -> El {
    let name = format!("Undo: {}", done.sentence);
    let when = format!("{}, {}", format::day_at(done.at), format::time(done.at));
    let what = span("what")
        .with(done.sentence)
        .with(" ")
        .with(el("br"))
        .with(span("support").with(when));
    let key = undo_key("press", done.save, undo).attr("aria-label", &name);
    el("li")
        .class("row")
        .with(what)
        .with(key.flag("disabled", move || !can))
}
