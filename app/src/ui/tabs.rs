//! The stages: a bar at the bottom of a phone, a rail at the left from 900 px.

use super::el::{El, Now, el, span};
use super::icons::{Icon, sign, wren};
use crate::live::Live;

/// One stage.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Tab {
    /// Its word.
    pub word: &'static str,
    /// Its sign.
    pub icon: Icon,
    /// Where it leads, as a link on the page.
    pub href: String,
}

/// The bar or rail: the stages in order, the place of the one that is open, how much needs the trader in the last one, and two or three words
/// at the foot of the rail.
pub fn tabs(
    tabs: &[Tab],
    current: &Now<Option<usize>>,
    needs: Live<usize>,
    foot: Now<String>,
) -> El {
    let last = tabs.len() - 1;
    let count = move || {
        let needs = needs.get();
        (needs > 0).then(|| span("count").with(needs.to_string()))
    };
    let tab = |(at, tab): (usize, &Tab)| {
        let current = current.clone();
        el("a")
            .class("tab")
            .attr("href", &tab.href)
            .attr_of("aria-current", move || {
                (current() == Some(at)).then(|| "page".to_owned())
            })
            .with(sign(tab.icon))
            .with(tab.word)
            .with((at == last).then(|| span("bare").show(count)))
    };
    el("nav")
        .class("tabs")
        .attr("aria-label", "Stages")
        .with(span("brand").with(wren()).with("Haulwren"))
        .with(tabs.iter().enumerate().map(tab).collect::<Vec<_>>())
        .with(el("p").class("tabs-foot").text_of(move || foot()))
}
