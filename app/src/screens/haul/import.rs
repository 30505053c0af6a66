//! What a file brought, beside the list on a wide window and over it on a narrow one, until it is put away.

use haulwren_core::view::Weighed;

use crate::format;
use crate::route::Route;
use crate::screens::brought::{close_key, counted, undo_key};
use crate::screens::page::use_wide;
use crate::screens::parts;
use crate::screens::settings::send;
use crate::shell::bring::Found;
use crate::store::{Bringing, Store, bringing, use_store};
use crate::ui::el::{El, Nodes, div, el, span};
use crate::ui::icons::{Icon, sign};

/// The column.
pub fn column() -> El {
    let (store, wide) = (use_store(), use_wide());
    div("bare").show(move || -> Nodes {
        bringing().with(|now| match now {
            Bringing::Done(found, _) if wide.get() => panel(store, found).into(),
            _ => ().into(),
        })
    })
}

fn panel(store: Store, found: &Found) -> El {
    let (incoming, weighed) = (&found.incoming, &found.weighed);
    let sender = store.read(|book| incoming.sender_name(book));
    let head = el("header")
        .with(el("h2").with(format!("Brought in from {sender}")))
        .with(parts::support(&support(found)));
    let keys = div("form flush")
        .with(send())
        .with(undo_key(store))
        .with(close_key());
    el("section")
        .class("import")
        .attr("data-import", "")
        .attr("aria-label", "What the file brought")
        .with(head)
        .with(counted(weighed, true))
        .with(keys)
}

fn support(found: &Found) -> String {
    let lines = found.incoming.changes.iter();
    let Some(last) = lines.max_by_key(|line| line.stamp) else {
        return "Nothing in it was new.".to_owned();
    };
    let at = last.change().at;
    format!(
        "Last change {}, {}. The file is checked and complete. Old values are kept.",
        format::day_at(at),
        format::time(at)
    )
}

/// The same in one line, where there is no room for the column. It leads to all that can be done about it.
pub fn line() -> El {
    div("bare").show(move || -> Nodes {
        bringing().with(|now| match now {
            Bringing::Done(found, _) => in_line(&found.weighed).into(),
            _ => ().into(),
        })
    })
}

fn in_line(weighed: &Weighed) -> El {
    let counts = [
        (Icon::Plus, weighed.new_records(), "new"),
        (Icon::Changed, weighed.changed, "changed"),
        (Icon::Fork, weighed.disputed, "to choose"),
    ];
    let mut what = span("what").with("Brought in: ");
    for (icon, count, word) in counts {
        if count > 0 {
            let count = el("b").with(format!("{count} {word}"));
            what = what
                .with(span("effect").with(sign(icon)).with(count))
                .with(" ");
        }
    }
    el("a")
        .class("row import-line")
        .attr("href", &Route::BookFile.href())
        .with(what)
        .with(sign(Icon::Next))
}
