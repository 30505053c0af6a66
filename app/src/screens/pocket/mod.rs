//! The pocket card: a page to print, or to save as a picture, for sales where the phone stays in the pocket.

mod picture;

use crate::live::Live;
use crate::shell::fault::said;
use haulwren_core::money::Money;
use haulwren_core::view::{self, Pocket};
use leptos::prelude::window;
use leptos::task::spawn_local;

use super::page::titled;
use super::parts;
use crate::format;
use crate::notice::Notice;
use crate::route::Route;
use crate::shell::files::{self, Left};
use crate::store::use_store;
use crate::ui::el::{El, Nodes, button, div, el};
use crate::ui::icons::{Icon, sign};
use crate::ui::notice::empty;

/// The screen.
pub fn pocket() -> Nodes {
    let store = use_store();
    let body = move || -> Nodes {
        let today = store.today();
        let card = today.and_then(|today| store.read_setup(|book| view::pocket(book, today)));
        match card {
            Some(card) => page(card).into(),
            None => empty(
                "The card needs a venue: where would you sell?",
                parts::link("press", Route::Venue(None), Icon::Plus, "Add a venue"),
            )
            .into(),
        }
    };
    [
        titled(|| "Pocket card".to_owned()),
        div("scroll pocket")
            .with(parts::back(Route::Settings, "Set up"))
            .show(body),
    ]
    .into()
}

fn page(card: Pocket) -> [El; 3] {
    let told = Live::new("");
    let print = move || {
        if window().print().is_err() {
            told.set("This browser prints nothing.");
        }
    };
    let table = table(&card);
    let save = move || {
        let (name, text) = (picture::name(&card), picture::draw(&card));
        spawn_local(async move {
            let said = match files::hand_out(&name, &text, "image/svg+xml").await {
                Ok(Left::Shared) => "The picture was handed over.",
                Ok(Left::Downloaded) => "The picture is among your downloads.",
                Ok(Left::Dismissed) => "No picture was saved: the sheet was closed.",
                Err(error) => {
                    let notice = Notice::copy_failed(&said(&error));
                    use_store().notice.set(Some(notice));
                    ""
                }
            };
            told.set(said);
        });
    };
    let keys = div("pocket-keys")
        .with(button("press go").on_click(print).with("Print"))
        .with(
            button("press")
                .on_click(save)
                .with(sign(Icon::Save))
                .with("Save as a picture"),
        );
    let said = el("p")
        .attr("role", "status")
        .class("pocket-said")
        .text_of(move || told.get().to_owned());
    [keys, said, table]
}

/// What stands under the table: venue, rate card, rules, and the day.
fn foot(card: &Pocket) -> Vec<String> {
    let rates = match &card.card {
        Some((name, true)) => format!(", posted by {name}, rough"),
        Some((name, false)) => format!(", posted by {name}"),
        None => String::new(),
    };
    let day = format!("{} {}", format::day(card.day), card.day.parts().0);
    vec![
        format!("{}{rates}", card.venue),
        format!("Rules: {}", card.rules.join(", ")),
        format!("{day}. A dash: leave it."),
    ]
}

/// The most to pay, "free", or a dash.
fn most(amount: Option<Money>, card: &Pocket) -> String {
    match amount {
        None => "\u{2013}".to_owned(),
        Some(Money::ZERO) => "free".to_owned(),
        Some(amount) => format::amount(amount, card.currency),
    }
}

fn table(card: &Pocket) -> El {
    let head = |scope: &str, text: &str| el("th").attr("scope", scope).with(text);
    let mut heads = vec![head("col", "Sells for")];
    heads.extend(card.columns.iter().map(|column| head("col", column)));
    let row = |(price, amounts): &(_, Vec<_>)| {
        let cells = amounts
            .iter()
            .map(|amount| el("td").with(most(*amount, card)));
        el("tr")
            .with(head("row", &format::short(*price, card.currency)))
            .with(cells.collect::<Vec<_>>())
    };
    let table = el("table")
        .with(el("caption").with("Pay no more than"))
        .with(el("thead").with(el("tr").with(heads)))
        .with(el("tbody").with(card.rows.iter().map(row).collect::<Vec<_>>()));
    let lines = foot(card).into_iter().map(|line| parts::line(&line));
    div("pocket-card")
        .with(table)
        .with(lines.collect::<Vec<_>>())
}
