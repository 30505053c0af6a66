//! Since when the terms hold, when they were last looked at, and a nudge to look again.

use crate::live::worked;
use haulwren_core::book::Command;
use haulwren_core::id::VenueId;
use haulwren_core::view::{dates, setup_of};
use leptos::prelude::untrack;

use super::desk::Desk;
use super::fields::key;
use crate::format;
use crate::screens::parts;
use crate::ui::el::{El, div, el};

/// The dates of a venue's terms.
pub fn age(desk: Desk, id: VenueId) -> El {
    let store = desk.store;
    let dates = worked(move || {
        let today = store.today()?;
        store.read_setup(|book| dates(book, id, today))
    });
    let still_so = move || {
        let setup = untrack(|| {
            let today = store.today()?;
            store.read_setup(|book| setup_of(book, id, today))
        });
        if let Some(setup) = setup {
            store.dispatch(
                Command::SaveVenue {
                    id: Some(id),
                    setup,
                },
                |_| {},
            );
        }
    };
    div("bare").show(move || {
        let dates = dates.get()?;
        let Some(days) = dates.stale else {
            return Some(parts::support(&format!(
                "These terms hold since {}, last checked {}.",
                format::day_of_year(dates.from),
                format::day_of_year(dates.checked)
            )));
        };
        let fact = el("b").with(format!("Last checked {days} days ago."));
        Some(
            div("notice")
                .with(el("p").with(fact).with(format!(
                    " These terms hold since {}. Still so?",
                    format::day_of_year(dates.from)
                )))
                .with(key("Still so", still_so)),
        )
    })
}
