//! The strip over a screen: where one is, and that all of it is saved here. Without a network that is said, but it is no error.

use crate::live::Live;

use super::el::{Do, El, Nodes, button, el};
use super::icons::{Icon, sign};

/// The strip: the screen's title, and whether there is no signal; of sample data that it is that, and `leave` to leave it.
pub fn strip(
    title: impl Fn() -> String + 'static,
    offline: Live<bool>,
    leave: Option<Do<()>>,
) -> El {
    let is_sample = leave.is_some();
    let saved = move || {
        let (icon, words) = match (is_sample, offline.get()) {
            (true, _) => (Icon::Tag, "Sample data, nothing of yours"),
            (false, true) => (Icon::NoSignal, "No signal. Saved on this device"),
            (false, false) => (Icon::Saved, "Saved on this device"),
        };
        [Nodes::from(sign(icon)), Nodes::from(words)]
    };
    let where_one_is = el("div")
        .with(el("h1").text_of(title))
        .with(el("p").show(saved));
    let leave = leave.map(|leave| {
        button("press")
            .attr("data-leave-sample", "")
            .on_click(move || leave(()))
            .with("Leave")
    });
    el("header").class("strip").with(where_one_is).with(leave)
}
