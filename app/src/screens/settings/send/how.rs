//! How files are made: kept for the next time.

use std::rc::Rc;

use super::Desk;
use crate::shell::files::can_share;
use crate::store::Choice;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Now, el};

/// One choice: what is asked, which it is, and its two words with a line under each.
type Asked = (&'static str, Choice, [(&'static str, &'static str); 2]);

const CHOICES: [Asked; 4] = [
    (
        "What goes",
        Choice::Whole,
        [
            (
                "What changed",
                "Since that device\u{2019}s last file; else the whole",
            ),
            ("Whole book", ""),
        ],
    ),
    (
        "Pictures",
        Choice::Pictures,
        [("Without", ""), ("With", "In files of their own")],
    ),
    (
        "Passphrase",
        Choice::Sealed,
        [
            ("None", "Whoever has the file can read it"),
            ("With one", "No way back without it"),
        ],
    ),
    (
        "Handed over",
        Choice::Sheet,
        [("Download", ""), ("Share", "")],
    ),
];

/// The choices, folded away; what they come to stands on the fold.
pub(super) fn how(desk: Desk) -> El {
    let summary = move || {
        const SHORT: [(Choice, [&str; 2]); 3] = [
            (Choice::Whole, ["what changed", "whole book"]),
            (Choice::Pictures, ["no pictures", "with pictures"]),
            (Choice::Sealed, ["no passphrase", "by passphrase"]),
        ];
        let Some(way) = desk.way.get() else {
            return String::new();
        };
        let words = SHORT.map(|(choice, words)| words[usize::from(way.is(choice))]);
        format!("How: {}", words.join(", "))
    };
    let mut fold = el("details")
        .class("fold")
        .attr("data-how", "")
        .with(el("summary").text_of(summary));
    for (legend, choice, words) in CHOICES {
        if choice == Choice::Sheet && !can_share() {
            continue;
        }
        let chosen: Now<usize> = Rc::new(move || {
            desk.way
                .with(|way| usize::from(way.is_some_and(|way| way.is(choice))))
        });
        let choose: Do<usize> = Rc::new(move |at| {
            desk.way.update(|way| {
                if let Some(way) = way {
                    way.set(choice, at == 1);
                }
            });
            if let Some(way) = desk.way.get_untracked() {
                desk.store.keep_way(way);
            }
        });
        fold = fold.with(choice_keys(legend, "send", false, &words, &chosen, &choose));
    }
    fold
}
