//! Taking the haul home: a table for spreadsheets, sheets to print, and the book file for another device.

use haulwren_core::exchange::take_home;
use haulwren_core::view::trips;
use leptos::prelude::untrack;
use leptos::task::spawn_local;

use super::beside;
use crate::format;
use crate::live::Live;
use crate::notice::Notice;
use crate::route::Route;
use crate::screens::parts;
use crate::screens::settings::{bring_in, copy_key};
use crate::shell::fault::said;
use crate::shell::files::{self, Left};
use crate::shell::scope;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, button, div, el, span};
use crate::ui::icons::{Icon, sign};
use haulwren_core::day::Day;

/// The page.
pub fn page() -> El {
    let told = Live::new("");
    let store = use_store();
    let sheets = move || -> Vec<El> {
        let trips = store.read(trips);
        let past = trips.iter().filter(|trip| trip.started.is_some()).take(6);
        past.map(|trip| {
            let day = trip.day.map(format::day_short).unwrap_or_default();
            let word = format!("Sheet of {day}");
            parts::link("press", Route::Sheet(trip.id), Icon::Sheet, &word)
        })
        .collect()
    };
    let tables = [
        parts::heading("A table for a spreadsheet"),
        parts::support(
            "One row for each thing, with what it cost and how it was judged; what is not sorted or shared yet has rows of its own, so that it adds up to what you spent. Commas between the cells; what looks like a formula is disarmed.",
        ),
        div("pair keys-row").with([
            table_key(store, told, true, "Today\u{2019}s haul"),
            table_key(store, told, false, "Everything"),
        ]),
        el("p")
            .attr("role", "status")
            .text_of(move || told.get().to_owned()),
        parts::heading("On paper"),
        div("form flush").show(sheets),
        parts::support("A stop\u{2019}s page has the record of what was paid there."),
    ];
    let file: Nodes = if scope::is_sample() {
        parts::support("Sample data never goes into a file.").into()
    } else {
        [
            parts::heading("The book for your other device"),
            parts::support("The whole book as one file: send it, and open it there."),
            copy_key(),
            bring_in("Open a book file"),
        ]
        .into()
    };
    beside(
        || "Take home".to_owned(),
        div("form flush").with(tables).with(file),
    )
}

fn table_key(store: Store, told: Live<&'static str>, of_today: bool, word: &str) -> El {
    let save = move || {
        let day = of_today.then(|| untrack(|| store.today())).flatten();
        spawn_local(async move { told.set(write(store, day).await) });
    };
    button("press")
        .attr("data-table", if of_today { "today" } else { "all" })
        .on_click(save)
        .with(sign(Icon::Save))
        .with(span("").with(word))
}

/// Writes the table and hands it out; says how it left.
async fn write(store: Store, day: Option<Day>) -> &'static str {
    // Opened by a mark: spreadsheets then read accents rightly.
    let Some(table) = store.read(|book| take_home(book, day, true)) else {
        return "There is no book yet.";
    };
    let today = store.today().map(|day| day.to_string()).unwrap_or_default();
    let name = format!("haulwren-haul-{today}.csv");
    match files::hand_out(&name, &table, "text/csv").await {
        Ok(Left::Shared) => "The table was handed over.",
        Ok(Left::Downloaded) => "The table is among your downloads.",
        Ok(Left::Dismissed) => "No table was saved: the sheet was closed.",
        Err(error) => {
            store.notice.set(Some(Notice::copy_failed(&said(&error))));
            ""
        }
    }
}
