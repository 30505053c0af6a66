//! Sending the book to another device: one tap makes the files, as they were made last, the next hands them over.

mod how;
mod passphrase;
mod ready;

use haulwren_core::id::DeviceCode;
use leptos::prelude::untrack;
use leptos::task::spawn_local;
use std::rc::Rc;

use crate::live::{Live, worked};
use crate::notice::Notice;
use crate::screens::parts;
use crate::shell::sealed::Passphrase;
use crate::shell::written::Written;
use crate::store::{Choice, Going, Store, Way, use_store};
use crate::ui::el::{El, Nodes, button, div, span};
use crate::ui::icons::{Icon, sign};

/// Another device: its name, and its code when a file was read from it.
#[derive(Clone)]
struct Other {
    name: String,
    code: Option<DeviceCode>,
}

/// How far it is.
#[derive(Clone)]
enum Sending {
    /// Nothing was asked for.
    Idle,
    /// A passphrase is asked for.
    Asking(Other),
    /// Files are being made: done, of all.
    Making(usize, usize),
    /// They are there, and these were handed over.
    Ready(Rc<Made>),
}

/// Files that were made.
struct Made {
    files: Vec<Written>,
    /// Whether they are the whole book.
    whole: bool,
    /// By the share sheet, all at once.
    sheet: bool,
}

/// What the parts of this follow.
#[derive(Clone, Copy)]
struct Desk {
    store: Store,
    way: Live<Option<Way>>,
    now: Live<Sending>,
}

/// The keys, how it is sent, and what comes of it.
pub fn send() -> Nodes {
    let store = use_store();
    let desk = Desk {
        store,
        way: Live::new(None),
        now: Live::new(Sending::Idle),
    };
    let others = Live::new(None::<Vec<Other>>);
    spawn_local(async move {
        desk.way.set(Some(store.way().await));
        let found = store.others().await.into_iter();
        let found = found.map(|(code, name, was_read)| {
            let code = was_read.then_some(code);
            Other { name, code }
        });
        others.set(Some(found.collect()));
    });
    let keys = move || -> Vec<El> {
        let Some(mut others) = others.get() else {
            return Vec::new();
        };
        if others.is_empty() {
            let name = "another device".to_owned();
            others.push(Other { name, code: None });
        }
        others.into_iter().map(|other| key(desk, other)).collect()
    };
    // Built once: a choice must not fold it up again.
    let is_known = worked(move || desk.way.with(Option::is_some));
    let how = move || is_known.get().then(|| untrack(|| how::how(desk)));
    [
        parts::heading("Send to another device"),
        div("form flush").attr("data-send", "").show(keys),
        div("bare").show(how),
        div("form flush")
            .attr("data-sending", "")
            .show(move || desk.now.with(|now| inside(desk, now))),
    ]
    .into()
}

fn key(desk: Desk, other: Other) -> El {
    let word = format!("Send to {}", other.name);
    let start = move || {
        let Some(way) = desk.way.get_untracked() else {
            return;
        };
        if way.is(Choice::Sealed) {
            desk.now.set(Sending::Asking(other.clone()));
        } else {
            make(desk, &other, None);
        }
    };
    button("press")
        .flag("disabled", move || {
            desk.now.with(|now| matches!(now, Sending::Making(..)))
        })
        .on_click(start)
        .with(sign(Icon::Save))
        .with(span("").with(word.as_str()))
}

/// Makes the files.
fn make(desk: Desk, other: &Other, passphrase: Option<Passphrase>) {
    let Some(way) = desk.way.get_untracked() else {
        return;
    };
    let going = Going {
        to: other.code.filter(|_| !way.is(Choice::Whole)),
        pictures: way.is(Choice::Pictures),
        passphrase,
    };
    desk.now.set(Sending::Making(0, 0));
    spawn_local(async move {
        let progress = |done, all| desk.now.set(Sending::Making(done, all));
        let made = desk.store.write_files(&going, &progress).await;
        desk.now.set(match made {
            Ok(files) => Sending::Ready(Rc::new(Made {
                files,
                whole: going.to.is_none(),
                sheet: way.is(Choice::Sheet),
            })),
            Err(why) => {
                desk.store.notice.set(Some(Notice::copy_failed(&why)));
                Sending::Idle
            }
        });
    });
}

fn inside(desk: Desk, now: &Sending) -> Nodes {
    match now {
        Sending::Idle => Nodes::default(),
        Sending::Asking(other) => passphrase::asked(desk, other),
        Sending::Making(done, all) if *all > 0 => {
            parts::status(&format!("Making the file: {done} of {all}")).into()
        }
        Sending::Making(..) => parts::status("Making the file").into(),
        Sending::Ready(made) => ready::ready(desk, made),
    }
}
