//! One rate card's page: its name, rough or full, its services, the zone mix, a parcel to try, and its dates.

use std::rc::Rc;

use haulwren_core::book::{Command, State};
use haulwren_core::day::Day;
use haulwren_core::id::CardId;
use haulwren_core::terms::stale;
use haulwren_core::view::CardInput;
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::{mix, rough, service, tried};
use crate::format;
use crate::live::worked;
use crate::route::{self, Route};
use crate::screens::form::{Text, currency, words};
use crate::screens::history;
use crate::screens::last_save::last_save;
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div};
use crate::ui::notice::notice;

/// The page; without an id it adds a card.
pub fn card(id: Option<CardId>) -> Nodes {
    let Some(currency) = currency() else {
        return Nodes::default();
    };
    let store = use_store();
    // A link may lead to a version that another one follows by now.
    let newest = untrack(|| store.read_setup(|book| id.and_then(|id| book.newest_of(id))));
    let back = || parts::back(Route::Postage, "Postage");
    if id.is_some() && newest.is_none() {
        let gone = parts::line("This rate card is no longer in the book.");
        let page = div("form").with([back(), gone]);
        let title = titled(|| "Rate card".to_owned());
        return [title, div("scroll").with(page)].into();
    }
    let desk = CardDesk::new(newest, currency);
    let title = move || {
        let name = desk.form(|form| form.name.trim().to_owned());
        if name.is_empty() {
            "A new rate card".to_owned()
        } else {
            name
        }
    };
    let services = move || {
        desk.whole.track();
        let is_simple = untrack(|| desk.form(haulwren_core::view::CardForm::is_simple));
        if is_simple {
            rough::few_steps(desk)
        } else {
            service::services(desk)
        }
    };
    let form = parts::form("form", move || desk.save())
        .with(back())
        .with(newest.map(|id| dates(desk, id)))
        .with(name(desk))
        .with(how_much(desk))
        .with(div("bare").show(services))
        .with(mix::mix(desk))
        .with(tried::try_it(desk))
        .with(left_over(desk))
        .with(parts::submit("Save rate card"))
        .with(desk.state.start_over(move || desk.whole.set(())))
        .with(newest.map(|id| standing(desk, id)));
    [titled(title), div("scroll").with(form), last_save()].into()
}

fn name(desk: CardDesk) -> El {
    desk.state.field(&Text {
        hint: "The carrier, or what you call it.",
        ..words("card-name", "Name of the rate card", CardInput::Name)
    })
}

/// Rough or full.
fn how_much(desk: CardDesk) -> El {
    let words = [
        ("Rough", "Four to six weights, one price each"),
        ("Full", "Zones, limits, bulk, surcharges"),
    ];
    let chosen: Now<usize> = Rc::new(move || desk.form(|form| usize::from(!form.rough)));
    let choose: Do<usize> = Rc::new(move |at| desk.rebuild(&mut |form| form.set_rough(at == 0)));
    choice_keys("How much of it", "rough", true, &words, &chosen, &choose)
}

/// What is wrong beyond single places, and how many places there are.
fn left_over(desk: CardDesk) -> El {
    div("faults").attr("role", "status").show(move || {
        let mut lines = Vec::new();
        if let Some(whole) = desk.fault(CardInput::Whole) {
            lines.push(parts::line(&whole).class("fault"));
        } else {
            let places = desk.state.faults(Vec::len);
            let words = match places {
                0 => None,
                1 => Some("One place needs another look.".to_owned()),
                places => Some(format!("{places} places need another look.")),
            };
            lines.extend(words.map(|words| parts::line(&words).class("fault")));
        }
        lines
    })
}

/// A day with its year.
fn day(day: Day) -> String {
    format!("{} {}", format::day_short(day), day.parts().0)
}

/// Since when its prices hold and when they were looked at, with a nudge when that is long ago.
fn dates(desk: CardDesk, id: CardId) -> El {
    let store = desk.state.store();
    let check = move || {
        let card = untrack(|| store.read_setup(|book| book.card(id)?.card.clone()));
        if let Some(card) = card {
            let id = Some(id);
            store.dispatch(Command::SaveCard { id, card }, |_| {});
        }
    };
    let days = worked(move || {
        store.read_setup(|book| {
            let card = book.card(id)?;
            Some((card.from?, card.checked?))
        })
    });
    div("bare").show(move || {
        let (from, checked) = days.get()?;
        let today = store.today()?;
        let text = format!(
            "Its prices hold since {}. Last checked {}.",
            day(from),
            day(checked)
        );
        let nudge = stale(checked, today).map(|ago| {
            let fact = format!("Last checked {ago} days ago.");
            let hint = "Look at the carrier’s prices. If they changed, type them below.";
            notice(&fact, hint, "Still right", Rc::new(move |()| check()))
        });
        Some([parts::support(&text), div("bare").with(nudge)])
    })
}

/// Whether parcels go by it, and the key that takes it away.
fn standing(desk: CardDesk, id: CardId) -> [El; 4] {
    let store = desk.state.store();
    let is_usual = worked(move || {
        let usual = |book: &State| book.usual_card().map(|(usual, _)| usual) == Some(id);
        store.read_setup(usual)
    });
    let remove = move || {
        let back = || route::replace(Route::Postage);
        desk.state.send(Command::RemoveCard(id), back);
    };
    let usual = move || {
        if is_usual.get() {
            parts::line("Your usual card: parcels are posted by it unless a venue has another.")
        } else {
            let use_it = move || store.dispatch(Command::UseCard(id), |_| {});
            button("press").on_click(use_it).with("Post by this card")
        }
    };
    [
        parts::heading("This rate card"),
        div("bare").show(usual),
        button("press")
            .on_click(remove)
            .with("Remove this rate card"),
        history::folded(id.record()),
    ]
}
