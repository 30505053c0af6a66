//! Several things at once: ticked in the list, then given one kind or one price.

use std::rc::Rc;

use haulwren_core::book::ThingCommand;
use haulwren_core::id::{KindId, ThingId};

use super::asked;
use crate::live::Live;
use crate::store::use_store;
use crate::ui::ask::{Answer, Ask, AskText, ask};
use crate::ui::el::{El, button, div, el};

/// Which things are ticked; `None` while none can be.
#[derive(Clone, Copy)]
pub struct Chosen(Live<Option<Vec<ThingId>>>);

impl Chosen {
    /// Nothing is being ticked.
    pub fn none() -> Self {
        Self(Live::new(None))
    }

    /// Whether things are being ticked. Tracks it.
    pub fn is_on(self) -> bool {
        self.0.with(Option::is_some)
    }

    /// Begins, or gives up.
    pub fn turn(self, on: bool) {
        self.0.set(on.then(Vec::new));
    }

    fn holds(self, thing: ThingId) -> bool {
        self.0
            .with(|chosen| chosen.as_ref().is_some_and(|all| all.contains(&thing)))
    }

    fn tick(self, thing: ThingId) {
        self.0.update(|chosen| {
            let Some(all) = chosen else { return };
            match all.iter().position(|one| *one == thing) {
                Some(at) => drop(all.remove(at)),
                None => all.push(thing),
            }
        });
    }

    /// A box to tick before a thing's row.
    pub fn tick_box(self, thing: ThingId, name: &str) -> Option<El> {
        self.is_on().then(|| {
            let name = if name.is_empty() { "no name yet" } else { name };
            let tick = el("input")
                .attr("type", "checkbox")
                .attr("aria-label", name)
                .checked_of(Rc::new(move || self.holds(thing)))
                .on("change", move |_| self.tick(thing));
            el("label").class("choose").with(tick)
        })
    }
}

/// The keys while things are being ticked.
pub fn tray(chosen: Chosen) -> El {
    let count = move || chosen.0.with(|all| all.as_ref().map_or(0, Vec::len));
    let word = move || match count() {
        1 => "Change 1 thing".to_owned(),
        count => format!("Change {count} things"),
    };
    div("tray haul-tray")
        .with(
            button("press go")
                .attr("data-edit-many", "")
                .flag("disabled", move || count() == 0)
                .on_click(move || edit(chosen))
                .text_of(word),
        )
        .with(
            button("press")
                .flag("disabled", move || count() == 0)
                .on_click(move || {
                    let things = chosen.0.get_untracked().unwrap_or_default();
                    asked::work(things, move || chosen.turn(false));
                })
                .with("Work"),
        )
        .with(
            button("press")
                .on_click(move || chosen.turn(false))
                .with("Done"),
        )
}

fn edit(chosen: Chosen) {
    let store = use_store();
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let things = chosen.0.get_untracked().unwrap_or_default();
    let known = store.read(haulwren_core::book::State::kinds);
    let ids: Vec<KindId> = known.iter().map(|kind| kind.id).collect();
    let names: Vec<String> = known.into_iter().map(|kind| kind.name).collect();
    let answer = move |answer: &Answer| {
        let kind = answer
            .choice
            .checked_sub(1)
            .and_then(|at| ids.get(at).copied());
        let command = ThingCommand::EditMany {
            things: things.clone(),
            kind,
            likely: asked::maybe_amount(answer, 0, currency)?,
        };
        store.dispatch(command.into(), move |saved| {
            if saved {
                chosen.turn(false);
            }
        });
        Ok(())
    };
    let mut words = vec![("As they are".to_owned(), String::new())];
    words.extend(names.into_iter().map(|name| (name, String::new())));
    ask(Ask {
        title: "Kind and price".to_owned(),
        hint: "What is not said stays as it is.".to_owned(),
        texts: vec![AskText::number("Each sells for", "")],
        choice: Some(("Kind", words, 0)),
        word: "Save",
        answer: Rc::new(answer),
    });
}
