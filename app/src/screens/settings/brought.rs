//! What a book file brings, told before it is taken and until it is put away: what is new, what changes, what needs a choice.

use crate::route::Route;
use crate::screens::parts;
use crate::shell::bring::Found;
use crate::store::use_store;
use crate::ui::el::{El, div, el, span};
use crate::ui::icons::{Icon, sign};
use haulwren_core::view::{Move, brought};

/// The panel.
pub fn brought_panel(found: &Found, is_in: bool) -> El {
    let (incoming, weighed) = (&found.incoming, &found.weighed);
    let sender = use_store().read(|book| incoming.sender_name(book));
    let head = match (is_in, incoming.changes.is_empty()) {
        (true, true) => "Nothing in it was new. The book is as it was.".to_owned(),
        (true, false) => {
            format!("Brought in from {sender}. Both old and new values stay on record.")
        }
        (false, true) => "Nothing in it is new.".to_owned(),
        (false, false) => format!("From {sender}. The file is checked and complete."),
    };
    let new = brought(&weighed.new)
        .into_iter()
        .map(|line| [line, String::new()]);
    let moved = |moves: &[Move]| -> Vec<[String; 2]> {
        let rows = moves.iter();
        rows.map(|moved| {
            [
                format!("{}: {}", moved.name, moved.label),
                moved.words.clone(),
            ]
        })
        .collect()
    };
    let is_any = weighed.disputed > 0;
    let choose =
        (is_any && is_in).then(|| parts::link("press", Route::Attention, Icon::Fork, "Choose now"));
    div("brought")
        .attr("data-brought", if is_in { "in" } else { "found" })
        .with(parts::status(&head))
        .with(part(
            Icon::Plus,
            weighed.new_records(),
            "new",
            new.collect(),
            0,
        ))
        .with(part(
            Icon::Changed,
            weighed.changed,
            "changed",
            moved(&weighed.moves),
            0,
        ))
        .with(part(
            Icon::Fork,
            weighed.disputed,
            if weighed.disputed == 1 {
                "needs your choice"
            } else {
                "need your choice"
            },
            moved(&weighed.choices),
            weighed.disputed.saturating_sub(weighed.choices.len()),
        ))
        .with(choose)
}

/// One part: a sign, how many, the word, and its lines. Nothing when there is none.
fn part(icon: Icon, count: usize, word: &str, lines: Vec<[String; 2]>, more: usize) -> Option<El> {
    if count == 0 {
        return None;
    }
    let head = el("h3")
        .with(sign(icon))
        .with(el("b").with(count.to_string()))
        .with(" ")
        .with(span("").with(word));
    let mut list = el("ul");
    for [what, words] in lines {
        list = list.with(
            el("li")
                .with(span("").with(what))
                .with(" ")
                .with(el("b").with(words)),
        );
    }
    if more > 0 {
        list = list.with(el("li").with(format!("and {more} more")));
    }
    Some(
        div("brought-part")
            .attr("data-part", word)
            .with(head)
            .with(list),
    )
}
