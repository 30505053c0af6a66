//! Bringing in a file, a book's or one of pictures: chosen or dropped on the page, its passphrase asked for, looked into, then taken.

use super::keeping::copy_key;
use crate::live::Live;
use haulwren_core::exchange::Meeting;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DragEvent;

use crate::route::Route;
use crate::screens::brought::{brought_panel, close_key, undo_key};
use crate::screens::page::titled;
use crate::screens::parts;
use crate::shell::bring::Found;
use crate::shell::clock;
use crate::shell::picture_files::FoundPictures;
use crate::shell::source::Locked;
use crate::store::{Bringing, Store, bringing, put_away, use_store};
use crate::ui::el::{El, Nodes, button, div, el, on_window, span};
use crate::ui::icons::{Icon, sign};
use crate::ui::secret::{Secret, secret};
use std::rc::Rc;

/// The key that chooses a file, and what comes of it. While it stands, a file can be dropped anywhere on the page.
pub fn bring_in(word: &'static str) -> El {
    let store = use_store();
    on_window("dragover", |event| event.prevent_default());
    on_window("drop", move |event| {
        event.prevent_default();
        let files = event
            .dyn_ref::<DragEvent>()
            .and_then(DragEvent::data_transfer)
            .and_then(|dropped| dropped.files());
        if let Some(file) = files.and_then(|files| files.get(0)) {
            store.look_into(file.into());
        }
    });
    let body = move || bringing().with(|now| inside(store, now, word));
    div("bring").attr("data-bring", "").show(body)
}

/// The page of a book that has not begun here: it comes from another device.
pub fn page() -> Nodes {
    let store = use_store();
    let back = move || {
        // Once the file is in, there is a book to go on with.
        let to = if store.currency().is_some() {
            (Route::Decide, "Go on to Decide")
        } else {
            (Route::First, "Begin a book of your own")
        };
        parts::link("press", to.0, Icon::Back, to.1)
    };
    let form = div("form")
        .with(el("p").with("On the other device: Set up, Save a copy. Send the file to this device, and open it here."))
        .with(bring_in("Open a book file"))
        .show(back);
    [
        titled(|| "A book from another device".to_owned()),
        div("scroll").with(form),
    ]
    .into()
}

fn inside(store: Store, now: &Bringing, word: &str) -> Nodes {
    match now {
        Bringing::Idle => [chooser(store, word), undo_key(store)].into(),
        Bringing::Reading(done, all) => progress("Reading the file", *done, *all).into(),
        Bringing::Taking(done, all) => progress("Bringing it in", *done, *all).into(),
        Bringing::Locked(locked, why) => locked_file(store, locked, why),
        Bringing::Found(found) => preview(store, found),
        Bringing::Undoing(done, all) => progress("Taking it out again", *done, *all).into(),
        Bringing::Done(found, more) => in_the_book(store, found, *more),
        Bringing::Pictures(found) => pictures(store, found),
        Bringing::DonePictures(count) => [
            parts::status(&format!("The pictures are on this device: {count}.")),
            chooser(store, "Choose another file"),
        ]
        .into(),
        Bringing::Refused(why) => [
            parts::line(why).class("fault").attr("role", "alert"),
            parts::support("Nothing was changed."),
            chooser(store, "Choose another file"),
        ]
        .into(),
    }
}

/// A file input that looks like a key.
fn chooser(store: Store, word: &str) -> El {
    let input = el("input")
        .attr("type", "file")
        .attr("accept", ".txt,text/plain")
        .attr("class", "file")
        .on("change", move |event| {
            if let Some(file) =
                parts::chosen(&event.target().map(JsValue::from).unwrap_or_default())
            {
                store.look_into(file.into());
            }
        });
    el("label")
        .class("press file-key")
        .with(sign(Icon::Save))
        .with(span("").with(word))
        .with(input)
}

fn progress(word: &str, done: usize, all: usize) -> El {
    let text = if all > 0 {
        format!("{word}: {done} of {all}")
    } else {
        word.to_owned()
    };
    parts::status(&text)
}

/// A sealed file's passphrase is asked for.
fn locked_file(store: Store, locked: &Locked, why: &str) -> Nodes {
    let typed = Live::new(String::new());
    let why = why.to_owned();
    let spec = Secret {
        id: "unlock",
        label: "Passphrase of this file",
        is_new: false,
    };
    let (shown, on_input) = (move || typed.get(), move |text| typed.set(text));
    let field = secret(
        spec,
        Rc::new(shown),
        // It was said of what is not typed any more.
        Rc::new(move || {
            let is_untouched = typed.with(String::is_empty);
            (is_untouched && !why.is_empty()).then(|| why.clone())
        }),
        Rc::new(on_input),
    );
    let locked = locked.clone();
    let sent = move || store.unlock(locked.clone(), &typed.get_untracked());
    let not_now = button("press").on_click(put_away).with("Not now");
    let keys = div("pair keys-row")
        .with(parts::submit("Open it").attr("data-unlock", ""))
        .with(not_now);
    parts::form("form flush", sent)
        .with(parts::status("This file is sealed."))
        .with(field)
        .with(keys)
        .into()
}

/// What a file of pictures would bring, and the key that keeps them.
fn pictures(store: Store, found: &FoundPictures) -> Nodes {
    let count = |count: usize| match count {
        1 => "1 picture".to_owned(),
        count => format!("{count} pictures"),
    };
    let sum = match found.new.len() {
        0 => "No picture in it is new.".to_owned(),
        new => format!("New in this file: {}.", count(new)),
    };
    let unnamed = (found.unnamed > 0).then(|| {
        let of = count(found.unnamed);
        parts::line(&format!(
            "{of} of things that this book does not have. Open the book file first, then this one."
        ))
    });
    let taken = found.clone();
    let take = button("press go")
        .attr("data-bring-in", "")
        .on_click(move || store.keep_pictures(taken.clone()))
        .with("Bring them in");
    let not_now = button("press").on_click(put_away).with("Not now");
    let keys = div("pair keys-row")
        .with((!found.new.is_empty()).then_some(take))
        .with(not_now);
    [parts::status(&sum), div("bare").with(unnamed), keys].into()
}

/// What the file would bring, and the key that takes it.
fn preview(store: Store, found: &Found) -> Nodes {
    let incoming = &found.incoming;
    let (two, word) = match incoming.meeting {
        Meeting::Two => (Some(two_books()), "Join both books"),
        Meeting::Fresh | Meeting::Same => (None, "Bring it in"),
    };
    let taken = found.clone();
    let take = button("press go")
        .attr("data-bring-in", "")
        .on_click(move || store.bring_in(taken.clone()))
        .with(word);
    let ahead = incoming.far_ahead(clock::now().0).map(|_| {
        parts::line("Something in it was saved more than a day ahead of this device\u{2019}s clock: one of the two clocks is wrong.")
    });
    let not_now = button("press").on_click(put_away).with("Not now");
    let has_new = !incoming.changes.is_empty();
    let keys = div("pair keys-row")
        .with(has_new.then_some(take))
        .with(not_now);
    [
        brought_panel(found, false),
        div("bare").with(ahead),
        div("bare").with(two),
        keys,
    ]
    .into()
}

/// What stands when both books were used: a copy first, then both joined, or the file's alone.
fn two_books() -> Nodes {
    let why = "This file is of another book than the one on this device, and both were used. Save a copy of this one first. Joined, all of both is in one book; your own house rules, usual venue and kinds stay as they are. That can\u{2019}t be undone as a whole.";
    let other =
        "To use the file\u{2019}s book alone, erase this device first, then open the file on it.";
    [
        parts::line(why).attr("role", "alert"),
        copy_key(),
        parts::support(other),
        parts::link("press", Route::Devices, Icon::Next, "Devices"),
    ]
    .into()
}

/// What came in, until it is put away.
fn in_the_book(store: Store, found: &Found, more: bool) -> Nodes {
    let (told, word) = if more {
        let told = "This part is in the book. Now open the next one.";
        (Some(parts::status(told)), "Choose the next part")
    } else {
        (None, "Open another file")
    };
    [
        brought_panel(found, true),
        div("bare").with(told),
        chooser(store, word),
        undo_key(store),
        close_key(),
    ]
    .into()
}
