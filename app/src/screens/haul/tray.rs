//! The keys of Haul: a thing, a lot, a free find, the next sale.

use haulwren_core::book::{Command, TripCommand};
use haulwren_core::view::Field;

use crate::route::{self, Route};
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, button, div};
use crate::ui::icons::{Icon, sign};

/// The tray.
pub fn tray() -> El {
    let store = use_store();
    let free = move || {
        store.edit_draft(|draft| {
            draft.set_text(Field::Ask, "0".to_owned());
            draft.go(Field::Likely);
        });
        route::go(Route::Decide);
    };
    let next = move || {
        let command = TripCommand::NextStop {
            stop: None,
            name: String::new(),
        };
        store.dispatch(Command::Trip(command), |_| {});
    };
    div("tray haul-tray")
        .with(parts::link("press go", Route::Decide, Icon::Plus, "Thing"))
        .with(parts::link("press", Route::NewLot, Icon::Lot, "Lot"))
        .with(
            button("press")
                .attr("data-free", "")
                .on_click(free)
                .with("Free find"),
        )
        .with(
            button("press")
                .attr("data-next-sale", "")
                .on_click(next)
                .with("Next sale")
                .with(sign(Icon::Next)),
        )
}
