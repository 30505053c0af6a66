//! The strip over a screen: where one is, and that all of it is saved here. Without a network that is said, but it is no error.

use crate::live::{Live, Worked};

use super::el::{El, Nodes, el};
use super::icons::{Icon, sign};

/// The strip: the screen's title, and whether there is no signal, or that it is only sample data; in the place of that what is wrong with how
/// the book is kept, in few words; at the right what stands `aside`.
pub fn strip(
    title: impl Fn() -> String + 'static,
    offline: Live<bool>,
    is_sample: bool,
    trouble: Worked<String>,
    aside: Nodes,
) -> El {
    let saved = move || {
        let trouble = trouble.get();
        if !trouble.is_empty() {
            return [Nodes::from(el("i")), Nodes::from(trouble)];
        }
        let (icon, words) = match (is_sample, offline.get()) {
            (true, _) => (Icon::Tag, "Sample data"),
            (false, true) => (Icon::NoSignal, "No signal. Saved on this device"),
            (false, false) => (Icon::Saved, "Saved on this device"),
        };
        [Nodes::from(sign(icon)), Nodes::from(words)]
    };
    let where_one_is = el("div").with(el("h1").text_of(title)).with(
        el("p")
            .class_if("due", move || trouble.with(|trouble| !trouble.is_empty()))
            .show(saved),
    );
    el("header").class("strip").with(where_one_is).with(aside)
}
