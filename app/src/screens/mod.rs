//! Screens, one folder for each stage, and the frame around them: which one is open, the tabs, the notice.

mod decide;
mod first;
mod haul;
mod page;
mod settings;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::notice::{Cure, Notice};
use crate::route::{Route, use_routes};
use crate::store::{Keeping, Phase, use_store};
use crate::ui::el::{El, Nodes, div, el};
use crate::ui::icons::Icon;
use crate::ui::notice::{notice, saving};
use crate::ui::tabs::{Tab, tabs};

/// The whole app.
pub fn app() -> El {
    page::follow();
    let store = use_store();
    let routes = use_routes();
    // One thing of the haul stands beside its list: going from one to the next leaves the list as it is.
    let stage = Memo::new(move |_| match routes.now() {
        Route::Thing(_) => Route::Haul,
        Route::First => Route::Decide,
        route => route,
    });
    let is_ready = Memo::new(move |_| store.phase.with(|phase| *phase == Phase::Ready));
    let has_begun = Memo::new(move |_| store.read_setup(|book| book.currency().is_some()));
    let body = move || match (is_ready.get(), has_begun.get()) {
        (true, true) => screen(stage.get()),
        (true, false) => first::first().into(),
        (false, _) => opening().into(),
    };
    let bar = move || (is_ready.get() && has_begun.get()).then(stages);
    let main = el("main")
        .class("screen")
        .show(move || store.notice.get().map(|notice| told(&notice)))
        .show(body)
        .with(saving(store.saving.into()));
    div("app").with(main).show(bar)
}

fn screen(stage: Route) -> Nodes {
    match stage {
        Route::Decide | Route::First => decide::decide().into(),
        Route::Haul | Route::Thing(_) => haul::haul(),
        Route::Settings => settings::settings(),
        Route::Venue(id) => settings::venue(id),
    }
}

/// The tabs. Stages that don't exist yet have none.
fn stages() -> El {
    let store = use_store();
    let routes = use_routes();
    let current = Signal::derive(move || match routes.now() {
        Route::Decide | Route::First => Some(0),
        Route::Haul | Route::Thing(_) => Some(1),
        Route::Settings | Route::Venue(_) => Some(2),
    });
    let foot = Signal::derive(move || match store.keeping.get() {
        Keeping::Disk => "Every save is on this device".to_owned(),
        Keeping::Memory => "Nothing is kept on this device".to_owned(),
    });
    let tab = |word, icon, route: Route| Tab {
        word,
        icon,
        href: route.href(),
    };
    let all = vec![
        tab("Decide", Icon::Decide, Route::Decide),
        tab("Haul", Icon::Haul, Route::Haul),
        tab("Set up", Icon::Setup, Route::Settings),
    ];
    tabs(all, current, foot)
}

/// An error with its one button.
fn told(told: &Notice) -> El {
    let store = use_store();
    let cure = told.cure;
    let act = Callback::new(move |()| match cure {
        Cure::SaveCopy => spawn_local(async move {
            // Says by a notice of its own when no copy left.
            store.save_copy().await;
        }),
        // Both leave the page as it is, and the notice on it, when the browser refuses.
        Cure::Reload => drop(window().location().reload()),
        Cure::Rescue => drop(window().location().set_href("./rescue.html")),
        Cure::Dismiss => store.notice.set(None),
    });
    notice(&told.fact, &told.hint, Some((cure.label(), act)), false)
}

/// Before the book is open, or when it does not open.
fn opening() -> El {
    let phase = use_store().phase;
    let line = |text: String| el("p").class("pad").attr("role", "status").with(text);
    div("scroll").show(move || match phase.get() {
        Phase::Failed(notice) => told(&notice),
        Phase::Opening(Some((done, all))) if all > 0 => {
            line(format!("Reading the book anew: {done} of {all}"))
        }
        _ => line("Opening your book".to_owned()),
    })
}
