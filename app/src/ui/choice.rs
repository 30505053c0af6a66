//! A radio group: joined keys, round only at the two ends.

use std::cell::Cell;
use std::rc::Rc;

use super::el::{Do, El, Now, div, el, span};

thread_local! {
    static GROUPS: Cell<u32> = const { Cell::new(0) };
}

/// The group: what is asked; a name for it; whether the keys stand on top of each other; the word of each
/// choice with a line under it, which may be empty; the place of the one that is chosen; and what to do with the place of a new one.
pub fn choice_keys(
    legend: &str,
    name: &str,
    stacked: bool,
    choices: &[(&str, &str)],
    chosen: &Now<usize>,
    on_choose: &Do<usize>,
) -> El {
    // Two groups of one name on one page would share their choice: the lot in the list and the same lot beside it.
    let number = GROUPS.with(|groups| groups.replace(groups.get() + 1));
    let name = &format!("{name}-{number}");
    let key = |(at, (word, hint)): (usize, &(&str, &str))| {
        let (chosen, on_choose) = (chosen.clone(), on_choose.clone());
        let input = el("input").attr("type", "radio").attr("name", name);
        let input = input
            .checked_of(Rc::new(move || chosen() == at))
            .on("change", move |_| on_choose(at));
        let hint = (!hint.is_empty()).then(|| el("small").with(*hint));
        el("label")
            .with(input)
            .with(span("key-face").with(*word).with(hint))
    };
    el("fieldset")
        .class(if stacked { "choice stacked" } else { "choice" })
        .with(el("legend").with(legend))
        .with(div("keys").with(choices.iter().enumerate().map(key).collect::<Vec<_>>()))
}
