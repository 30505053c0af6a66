//! The undo bar: what was saved last, a key that takes it back, and the last ten. It has no countdown.

use crate::live::{Live, worked};
use haulwren_core::view::Done;
use std::rc::Rc;

use super::el::{Do, El, button, div, el, span};
use super::icons::{Icon, sign};
use super::sheet::sheet;
use crate::format;

/// The last ten saves, newest first, each with whether it can still be undone; `None` while they are being read.
pub type Ten = Option<Vec<(Done, bool)>>;

/// A key that goes with a save, such as a picture of what was just bought.
pub type Beside = dyn Fn(&Done) -> Option<El>;

/// The bar, which shows while there is a last save. `on_list` asks for the last ten; `on_undo` takes a save back by its first
/// number; `beside` is a key that goes with a save.
pub fn undo_bar(
    last: Live<Option<Done>>,
    ten: Live<Ten>,
    on_list: Do<()>,
    on_undo: Do<u64>,
    beside: Rc<Beside>,
) -> El {
    let listed = Live::new(false);
    let undo: Do<u64> = Rc::new(move |save| {
        listed.set(false);
        on_undo(save);
    });
    let close: Do<()> = Rc::new(move |()| listed.set(false));
    let from_list = undo.clone();
    let bar = move |done: Done| {
        let on_list = on_list.clone();
        let show_ten = move || {
            on_list(());
            listed.set(true);
        };
        el("section")
            .class("undo")
            .attr("data-undo", "")
            .attr("aria-label", "Last save")
            .with(el("p").attr("role", "status").with(done.sentence.as_str()))
            .with(beside(&done))
            .with(button("press").on_click(show_ten).with("Last ten"))
            .with(undo_key("press strong", done.save, &undo))
    };
    let rows = move || {
        ten.with(|ten| match ten {
            None => el("p").attr("role", "status").with("Reading"),
            Some(ten) => el("ul").with(
                ten.iter()
                    .map(|(done, can)| row(done, *can, &from_list))
                    .collect::<Vec<_>>(),
            ),
        })
    };
    let title = Rc::new(|| "Last ten saves".to_owned());
    div("bare").show(move || last.get().map(&bar)).with(sheet(
        worked(move || listed.get()),
        &close,
        title,
        false,
        rows,
    ))
}

fn undo_key(class: &str, save: u64, undo: &Do<u64>) -> El {
    let undo = undo.clone();
    button(class)
        .on_click(move || undo(save))
        .with(sign(Icon::Undo))
        .with("Undo")
}

fn row(done: &Done, can: bool, undo: &Do<u64>) -> El {
    let name = format!("Undo: {}", done.sentence);
    let when = format!("{}, {}", format::day_at(done.at), format::time(done.at));
    let what = span("what")
        .with(done.sentence.as_str())
        .with(" ")
        .with(el("br"))
        .with(span("support").with(when));
    let mut key = undo_key("press", done.save, undo).attr("aria-label", &name);
    if !can {
        key = key.attr("disabled", "");
    }
    el("li").class("row").with(what).with(key)
}
