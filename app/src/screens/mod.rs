//! Screens, one folder for each stage, and the frame around them: which one is open, the tabs, the notice.

mod brought;
mod choices;
mod decide;
mod first;
mod form;
mod further;
mod haul;
mod history;
mod ladder;
mod last_save;
mod late;
mod page;
mod parts;
mod photo_key;
mod pile;
mod pocket;
mod questions;
mod settings;
mod update;
mod what;

pub use further::load;

use crate::follow::follow_later;
use crate::live::worked;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::*;

use crate::late::ahead;
use crate::notice::{Cure, Notice};
use crate::route::{self, Route};
use crate::shell::page as shell;
use crate::store::{Phase, use_store};
use crate::ui::ask::ask_sheet;
use crate::ui::el::{Do, El, Nodes, div, el};
use crate::ui::icons::Icon;
use crate::ui::notice::{action, notice, saving};
use crate::ui::tabs::{Tab, tabs};

/// How long the first screen has the device to itself.
const SOON: Duration = Duration::from_millis(1_500);

/// The whole app.
pub fn app() -> El {
    page::follow();
    let store = use_store();
    // One thing of the haul stands beside its list: going from one to the next leaves the list as it is.
    let stage = worked(move || match route::now() {
        route if route.is_haul() => Route::Haul,
        Route::First => Route::Decide,
        route => route,
    });
    let is_ready = worked(move || store.phase.with(|phase| *phase == Phase::Ready));
    let has_begun = worked(move || store.read_setup(|book| book.currency().is_some()));
    // Says on the page which screen was drawn last.
    follow_later(Box::new(|| {
        route::now();
        shell::mark("at", &window().location().hash().unwrap_or_default());
    }));
    // What comes late is fetched once the first screen stands, so that it is there before it is opened.
    let fetch = Cell::new(None);
    follow_later(Box::new(move || {
        if is_ready.get() {
            fetch.set(set_timeout_with_handle(ahead, SOON).ok());
        }
    }));
    let shown = worked(
        move || match (is_ready.get(), has_begun.get(), stage.get()) {
            (false, ..) => Shown::Opening,
            (true, false, stage) if stage != Route::BookFile => Shown::First,
            (true, _, stage) => Shown::Stage(stage),
        },
    );
    let body = move || match shown.get() {
        Shown::Opening => opening().into(),
        Shown::First => first::first().into(),
        Shown::Stage(stage) => screen(stage),
    };
    let bar = move || (is_ready.get() && has_begun.get()).then(stages);
    let main = el("main")
        .class("screen")
        .show(move || store.notice.get().map(|notice| told(&notice)))
        .with(update::offer())
        .show(body)
        .with(saving(store.saving));
    div("app").with(main).show(bar).with(ask_sheet())
}

/// What stands on the page.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shown {
    /// The book is being opened, or does not open.
    Opening,
    /// Nothing has begun yet.
    First,
    /// A stage.
    Stage(Route),
}

fn screen(stage: Route) -> Nodes {
    match stage {
        Route::Decide | Route::First => decide::decide().into(),
        route => late::screen(route),
    }
}

/// The tabs. Stages that don't exist yet have none.
fn stages() -> El {
    let store = use_store();
    let current = move || match route::now() {
        Route::Decide | Route::Pile | Route::First => Some(0),
        route if route.is_haul() => Some(1),
        _ => Some(2),
    };
    let standing = store.standing();
    let foot = move || standing.with(|standing| standing.sentence().to_owned());
    let tab = |word, icon, route: Route| Tab {
        word,
        icon,
        href: route.href(),
    };
    let all = [
        tab("Decide", Icon::Decide, Route::Decide),
        tab("Haul", Icon::Haul, Route::Haul),
        tab("Set up", Icon::Setup, Route::Settings),
    ];
    let current: Rc<dyn Fn() -> Option<usize>> = Rc::new(current);
    tabs(&all, &current, store.needs, Rc::new(foot))
}

/// An error with its buttons.
fn told(told: &Notice) -> El {
    let act = |cure| -> Do<()> { Rc::new(move |()| cure_by(cure)) };
    let then = told
        .then
        .map(|cure| action("press", cure.label(), act(cure)));
    notice(&told.fact, &told.hint, told.cure.label(), act(told.cure)).with(then)
}

fn cure_by(cure: Cure) {
    match cure {
        Cure::SaveCopy => page::save_copy(),
        // Both leave the page as it is, and the notice on it, when the browser refuses.
        Cure::Reload => drop(window().location().reload()),
        Cure::Rescue => drop(window().location().set_href("./rescue.html")),
        Cure::Dismiss => use_store().notice.set(None),
    }
}

/// Before the book is open, or when it does not open.
fn opening() -> El {
    let phase = use_store().phase;
    div("scroll").show(move || match phase.get() {
        Phase::Failed(notice) => told(&notice),
        Phase::Opening(Some((done, all))) if all > 0 => {
            parts::status(&format!("Reading the book anew: {done} of {all}")).class("pad")
        }
        Phase::Opening(_) | Phase::Ready => parts::status("Opening your book").class("pad"),
    })
}
