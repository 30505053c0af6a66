//! Bringing in a book file: chosen or dropped on the page, looked into, then taken.

use super::brought::brought_panel;
use super::keeping::copy_key;
use crate::live::Live;
use haulwren_core::exchange::Meeting;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DragEvent;

use crate::route::Route;
use crate::screens::page::titled;
use crate::screens::parts;
use crate::shell::bring::Found;
use crate::shell::clock;
use crate::store::{Bringing, Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el, on_window, span};
use crate::ui::icons::{Icon, sign};

/// The key that chooses a file, and what comes of it. While it stands, a file can be dropped anywhere on the page.
pub fn bring_in(word: &'static str) -> El {
    let store = use_store();
    let told = Live::new(Bringing::Idle);
    on_window("dragover", |event| event.prevent_default());
    on_window("drop", move |event| {
        event.prevent_default();
        let files = event
            .dyn_ref::<DragEvent>()
            .and_then(DragEvent::data_transfer)
            .and_then(|dropped| dropped.files());
        if let Some(file) = files.and_then(|files| files.get(0)) {
            store.look_into(file.into(), told);
        }
    });
    let body = move || told.with(|told_now| inside(store, told, told_now, word));
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

fn inside(store: Store, told: Live<Bringing>, now: &Bringing, word: &str) -> Nodes {
    match now {
        Bringing::Idle => [chooser(store, told, word), undo_key(store, told)].into(),
        Bringing::Reading(done, all) => progress("Reading the file", *done, *all).into(),
        Bringing::Taking(done, all) => progress("Bringing it in", *done, *all).into(),
        Bringing::Found(found) => preview(store, told, found),
        Bringing::Undoing(done, all) => progress("Taking it out again", *done, *all).into(),
        Bringing::Done(found) => in_the_book(store, told, found),
        Bringing::Refused(why) => [
            parts::line(why).class("fault").attr("role", "alert"),
            parts::support("Nothing was changed."),
            chooser(store, told, "Choose another file"),
        ]
        .into(),
    }
}

/// A file input that looks like a key.
fn chooser(store: Store, told: Live<Bringing>, word: &str) -> El {
    let input = el("input")
        .attr("type", "file")
        .attr("accept", ".txt,text/plain")
        .attr("class", "file")
        .on("change", move |event| {
            if let Some(file) =
                parts::chosen(&event.target().map(JsValue::from).unwrap_or_default())
            {
                store.look_into(file.into(), told);
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

/// What the file would bring, and the key that takes it.
fn preview(store: Store, told: Live<Bringing>, found: &Found) -> Nodes {
    let incoming = &found.incoming;
    let (two, word) = match incoming.meeting {
        Meeting::Two => (Some(two_books()), "Join both books"),
        Meeting::Fresh | Meeting::Same => (None, "Bring it in"),
    };
    let taken = found.clone();
    let take = button("press go")
        .attr("data-bring-in", "")
        .on_click(move || store.bring_in(taken.clone(), told))
        .with(word);
    let ahead = incoming.far_ahead(clock::now().0).map(|_| {
        parts::line("Something in it was saved more than a day ahead of this device\u{2019}s clock: one of the two clocks is wrong.")
    });
    let not_now = button("press")
        .on_click(move || told.set(Bringing::Idle))
        .with("Not now");
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
fn in_the_book(store: Store, told: Live<Bringing>, found: &Found) -> Nodes {
    let close = button("press")
        .attr("data-close-import", "")
        .on_click(move || told.set(Bringing::Idle))
        .with("Close");
    [brought_panel(found, true), undo_key(store, told), close].into()
}

/// The key that takes out again what the last file brought in, as long as that can be done.
fn undo_key(store: Store, told: Live<Bringing>) -> El {
    let can = Live::new(false);
    spawn_local(async move {
        let can_undo = store.can_undo_import().await;
        if !can.is_gone() {
            can.set(can_undo);
        }
    });
    div("bare").show(move || {
        can.get().then(|| {
            button("press")
                .attr("data-undo-import", "")
                .on_click(move || store.undo_import(told))
                .with(sign(Icon::Undo))
                .with("Undo the import")
        })
    })
}
