//! The devices that keep the book: their names, what this one keeps and how safely, and taking everything off it.

use std::rc::Rc;

use leptos::task::spawn_local;

use crate::live::Live;
use crate::route::Route;
use crate::screens::first::MERE_PAGE;
use crate::screens::page::titled_with;
use crate::screens::parts;
use crate::shell::device::is_mere_page;
use crate::shell::room::Room;
use crate::shell::scope;
use crate::store::{Keeper, Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask, fixed};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};

/// The page.
pub fn page() -> Nodes {
    let store = use_store();
    let inside = if scope::is_sample() {
        parts::support("Sample data is on this device only, and goes when you leave it.").into()
    } else {
        kept(store)
    };
    let back = parts::back(Route::Settings, "Set up");
    [
        titled_with(|| "Devices".to_owned(), back),
        div("scroll").with(div("form").with(inside)),
    ]
    .into()
}

fn kept(store: Store) -> Nodes {
    let list = move || -> Vec<El> { store.keepers().iter().map(|one| row(store, one)).collect() };
    let mere = is_mere_page().then(|| parts::line(MERE_PAGE).class("fault"));
    [
        parts::support("One book on several devices: each keeps all of it, and files carry what is new from one to the other."),
        div("devices").show(list),
        parts::heading("On this device"),
        div("bare").with(mere),
        room(),
        parts::heading("If something looks wrong"),
        parts::support("Every record can be worked out anew from all that was ever saved. Nothing is lost by it; a large book takes a while."),
        button("press")
            .attr("data-build-anew", "")
            .on_click(move || store.build_anew())
            .with(sign(Icon::Turn))
            .with("Build the book anew"),
        parts::heading("Take everything off this device"),
        parts::support("For a device that you give away or lend. The book on your other devices stays."),
        erase_key(store),
    ]
    .into()
}

fn row(store: Store, one: &Keeper) -> El {
    let changes = if one.known == 1 { "change" } else { "changes" };
    let line = format!("{} {changes} of it known here", one.known);
    let mark = one.is_here.then(|| span("mark").with("this one"));
    let what = span("what")
        .with(el("b").with(one.name.as_str()))
        .with(" ")
        .with(mark)
        .with(el("small").with(line));
    let name = one.name.clone();
    let rename = one.is_here.then(|| {
        button("press")
            .attr("data-name-device", "")
            .on_click(move || ask_name(store, &name))
            .with("Name")
    });
    div("row device")
        .attr("data-device", &one.code.to_string())
        .with(what)
        .with(rename)
}

fn ask_name(store: Store, name: &str) {
    let answer = move |answer: &Answer| {
        let name = answer.texts[0].clone();
        if name.is_empty() {
            return Err((
                0,
                "Type a name, such as Phone or Kitchen computer.".to_owned(),
            ));
        }
        store.name_device(name);
        Ok(())
    };
    ask(Ask {
        title: "What is this device called?".to_owned(),
        hint: "Choices between two devices are told by their names.".to_owned(),
        texts: vec![AskText::words("Name of this device", name)],
        choice: None,
        word: "Name it",
        answer: Rc::new(answer),
    });
}

/// What is kept, and how safely.
fn room() -> El {
    let room = Live::new(None::<Room>);
    spawn_local(async move {
        let now = Room::now().await;
        if !room.is_gone() {
            room.set(Some(now));
        }
    });
    div("bare").show(move || match room.get() {
        None => parts::status("Reading").into(),
        Some(room) => told(room),
    })
}

fn told(room: Room) -> Nodes {
    let used = match (room.used, room.all) {
        (Some(used), Some(all)) => format!(
            "{} used, of {} that the browser gives.",
            size(used),
            size(all)
        ),
        (Some(used), None) => format!("{} used.", size(used)),
        (None, _) => "This browser does not say how much is used.".to_owned(),
    };
    let safe = match room.persists {
        Some(true) => "The browser keeps it when room gets short.",
        Some(false) => {
            "When room gets short, the browser may clear it: save a copy elsewhere now and then."
        }
        None => {
            "This browser does not say whether it clears it when room gets short: save a copy elsewhere now and then."
        }
    };
    [
        parts::line(&used).attr("data-room", ""),
        parts::support(safe),
    ]
    .into()
}

/// Bytes in decimal units, to three figures at most.
fn size(bytes: f64) -> String {
    let (value, unit) = match bytes {
        small if small < 1e6 => (small / 1e3, "kB"),
        middle if middle < 1e9 => (middle / 1e6, "MB"),
        large => (large / 1e9, "GB"),
    };
    let decimals = usize::from(value < 9.95);
    format!("{value:.decimals$} {unit}")
}

fn erase_key(store: Store) -> El {
    button("press")
        .attr("data-erase", "")
        .on_click(move || ask_erase(store))
        .with(sign(Icon::Rub))
        .with("Erase this device")
}

fn ask_erase(store: Store) {
    let answer = move |answer: &Answer| {
        if answer.choice == 1 {
            store.erase();
        }
        Ok(())
    };
    ask(Ask {
        title: "Erase this device?".to_owned(),
        hint: "There is no way back but a copy elsewhere. Opening the app here again needs signal."
            .to_owned(),
        texts: Vec::new(),
        choice: Some((
            "What stays on this device",
            fixed(&[
                ("Everything", "Nothing happens"),
                ("Nothing", "The book, its pictures and the app go"),
            ]),
            0,
        )),
        word: "Do it",
        answer: Rc::new(answer),
    });
}
