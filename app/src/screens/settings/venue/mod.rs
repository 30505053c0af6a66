//! One venue's page: its form, what it comes to at any price, how old its terms are, whether it is the usual one, and taking it away.

mod age;
mod charge;
mod charges;
mod conditions;
mod cut;
mod desk;
mod fields;
mod kinds;
mod limits;
mod posting;
mod shapes;
mod table;
mod trying;
mod usual;

use crate::live::worked;
use haulwren_core::book::Command;
use haulwren_core::id::VenueId;
use haulwren_core::view::VenueInput;

use super::super::history;
use super::super::last_save::last_save;
use super::super::page::titled;
use super::super::parts;
use crate::route::{self, Route};
use crate::ui::el::{El, Nodes, button, div};
use desk::Desk;
use fields::NAME;

/// The page; without an id it adds a venue.
pub fn venue(id: Option<VenueId>) -> Nodes {
    let desk = Desk::new(id);
    let title = move || {
        let name = desk.form.stored(|form| form.name.clone());
        if name.is_empty() {
            "A new venue".to_owned()
        } else {
            name
        }
    };
    let form = parts::form("form", move || desk.save())
        .with(parts::back(Route::Settings, "Set up"))
        .with(id.map(|id| age::age(desk, id)))
        .with(desk.form.field(&NAME))
        .with(posting::posting(desk))
        .with(posting::sending(desk))
        .with(cut::cut(desk))
        .with(usual::usual(desk))
        .with(trying::trying(desk))
        .with(desk.form.fault_line(VenueInput::Terms))
        .with(parts::submit("Save venue"))
        .with(id.map(|id| standing(desk, id)));
    let page = div("scroll").with(form);
    [titled(title), page, shapes::sheet_of(desk), last_save()].into()
}

/// Whether it is the usual venue, and the key that takes it away.
fn standing(desk: Desk, id: VenueId) -> [El; 4] {
    let store = desk.store;
    let is_usual = worked(move || store.read_setup(|book| book.usual_venue() == Some(id)));
    let use_it = move || store.dispatch(Command::UseVenue(id), |_| {});
    let remove = move || {
        store.dispatch(Command::RemoveVenue(id), move |saved| {
            if saved {
                route::replace(Route::Settings);
            }
        });
    };
    let usual = move || {
        if is_usual.get() {
            parts::line("Your usual venue: things are judged on it unless you choose another.")
        } else {
            button("press")
                .on_click(use_it)
                .with("Make it the usual one")
        }
    };
    [
        parts::heading("This venue"),
        div("bare").show(usual),
        button("press").on_click(remove).with("Remove this venue"),
        history::folded(id.record()),
    ]
}
