//! What a book file brings, told before it is taken and until it is put away: what is new, what changes, what needs a choice.

use crate::follow::follow;
use crate::live::Live;
use crate::route::Route;
use crate::screens::parts;
use crate::screens::questions::Questions;
use crate::shell::bring::Found;
use crate::store::{Store, put_away, use_store};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};
use haulwren_core::view::{Effect, Move, Weighed, brought};
use leptos::task::spawn_local;

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
    let ways = (is_in && !incoming.changes.is_empty()).then(|| {
        let choose = (weighed.disputed > 0)
            .then(|| parts::link("press", Route::Attention, Icon::Fork, "Choose now"));
        let see = parts::link("press", Route::Haul, Icon::Haul, "See it in the haul");
        div("pair").with(choose).with(see)
    });
    div("brought")
        .attr("data-brought", if is_in { "in" } else { "found" })
        .with(parts::status(&head))
        .with(counted(weighed, is_in))
        .with(ways)
}

/// What is new, what changed and what needs a choice, each counted and told. Once it is in, what is told leads to where it stands.
pub fn counted(weighed: &Weighed, is_in: bool) -> Nodes {
    let new = brought(&weighed.new);
    let new = new.into_iter().map(|line| told(&line, "", None)).collect();
    let moved = |moves: &[Move]| -> Vec<El> {
        let rows = moves.iter();
        rows.map(|moved| {
            let what = format!("{}: {}", moved.name, moved.label);
            told(&what, &moved.words, is_in.then(|| Route::of(&moved.record)))
        })
        .collect()
    };
    let choice = if weighed.disputed == 1 {
        "needs your choice"
    } else {
        "need your choice"
    };
    let (changed, choices) = (&weighed.moves, &weighed.choices);
    let more = weighed.disputed.saturating_sub(choices.len());
    [
        part(Icon::Plus, weighed.new_records(), "new", new, 0),
        part(Icon::Changed, weighed.changed, "changed", moved(changed), 0),
        part(Icon::Fork, weighed.disputed, choice, moved(choices), more),
    ]
    .into_iter()
    .flatten()
    .collect::<Vec<El>>()
    .into()
}

/// One part: a sign, how many, the word, and its lines. Nothing when there is none.
fn part(icon: Icon, count: usize, word: &str, lines: Vec<El>, more: usize) -> Option<El> {
    if count == 0 {
        return None;
    }
    let head = el("h3")
        .with(sign(icon))
        .with(el("b").with(count.to_string()))
        .with(" ")
        .with(span("").with(word));
    let mut list = el("ul").with(lines);
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

/// A line of a part: what, and what is said of it.
fn told(what: &str, words: &str, to: Option<Route>) -> El {
    let what = match to {
        Some(to) => el("a").attr("href", &to.href()),
        None => span(""),
    }
    .with(what);
    el("li").with(what).with(" ").with(el("b").with(words))
}

/// What the last file did to something that stands in a list, as a mark on it; nothing once the file was put away.
pub fn effect_mark(effect: Effect) -> El {
    let (icon, word) = match effect {
        Effect::New => (Icon::Plus, "new"),
        Effect::Changed => (Icon::Changed, "changed"),
        Effect::Choose => (Icon::Fork, "needs your choice"),
    };
    span("mark effect").with(sign(icon)).with(word)
}

/// The key that puts away what came in.
pub fn close_key() -> El {
    button("press")
        .attr("data-close-import", "")
        .on_click(put_away)
        .with("Close")
}

/// The key that takes out again what the last file brought in, as long as that can be done.
pub fn undo_key(store: Store) -> El {
    let can = Live::new(false);
    let questions = Questions::default();
    // Any save ends it.
    follow(Box::new(move || {
        store.read(|_| ());
        let is_last = questions.ask();
        spawn_local(async move {
            let can_undo = store.can_undo_import().await;
            if is_last() && !can.is_gone() && can.get_untracked() != can_undo {
                can.set(can_undo);
            }
        });
    }));
    div("bare").show(move || {
        can.get().then(|| {
            button("press")
                .attr("data-undo-import", "")
                .on_click(move || store.undo_import())
                .with(sign(Icon::Undo))
                .with("Undo the import")
        })
    })
}
