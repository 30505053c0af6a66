//! What can be done with a thing: priced, kept, worked on, given back, moved to another lot, taken out.

use std::rc::Rc;

use haulwren_core::book::{Command, LotCommand, SharedLot, State, ThingCommand};
use haulwren_core::id::{LotId, ThingId, WorkId};
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::lot_words;

use super::super::asked;
use super::{part, row_of};
use crate::format;
use crate::live::worked;
use crate::route::{self, Route};
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, NONE_YET, ask};
use crate::ui::el::{El, Nodes, button, div, span};

/// The keys, and the work that was put into it.
pub fn deeds(id: ThingId) -> El {
    let store = use_store();
    let kept = worked(move || row_of(store, id, |row| row.kept).unwrap_or_default());
    let keep = button("press")
        .state("aria-pressed", move || kept.get())
        .on_click(move || {
            let kept = !kept.get_untracked();
            store.dispatch(
                ThingCommand::KeepForMyself { thing: id, kept }.into(),
                |_| {},
            );
        })
        .with("Kept for myself");
    let keys = div("pair keys-row").with([
        keep,
        key("Add work", move || asked::work(vec![id], || {})),
        key("Give it back", move || give_back(store, id)),
        key("Another lot", move || regroup(store, id)),
        take_out(store, id),
    ]);
    part(
        "What to do with it",
        div("bare").show(move || works(store, id)),
    )
    .with(keys)
}

fn key(word: &str, pressed: impl Fn() + 'static) -> El {
    button("press").on_click(pressed).with(word)
}

/// The bills for work, each with a key that takes it away.
fn works(store: Store, id: ThingId) -> Nodes {
    let Some(currency) = store.currency() else {
        return ().into();
    };
    let works = store.read(|book| book.works_of(id));
    let row = |(work, name, cost): (WorkId, String, Money)| {
        let out = button("press")
            .attr("aria-label", &format!("Take out: {name}"))
            .on_click(move || store.dispatch(ThingCommand::RemoveWork(work).into(), |_| {}))
            .with("Out");
        div("row")
            .with(span("what").with(name))
            .with(span("paid").with(format::amount(cost, currency)))
            .with(out)
    };
    works.into_iter().map(row).collect::<Vec<_>>().into()
}

fn give_back(store: Store, id: ThingId) {
    let now = row_of(store, id, |row| row.paid);
    asked::money(
        "Given back to the seller",
        "What came back",
        now,
        move |got_back| {
            let command = ThingCommand::ReturnToSeller {
                thing: id,
                got_back,
            };
            store.dispatch(command.into(), |saved| {
                if saved {
                    route::replace(Route::Haul);
                }
            });
        },
    );
}

/// Asks which lot it belongs to, among the latest. None is chosen beforehand.
fn regroup(store: Store, id: ThingId) {
    const MOST: usize = 12;
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let own = row_of(store, id, |row| row.lot).flatten();
    let lots: Vec<(LotId, (String, String))> = store.read(|book| {
        let mut lots = book.lots();
        lots.retain(|lot| Some(lot.id) != own);
        lots.sort_unstable_by_key(|lot| {
            let bought = lot.lot.bought.map(|at| at.0);
            std::cmp::Reverse((bought, lot.id))
        });
        let named = |lot: &SharedLot<'_>| (lot.id, words(book, lot, currency));
        lots.iter().take(MOST).map(named).collect()
    });
    if lots.is_empty() {
        ask(Ask {
            title: "There is no other lot".to_owned(),
            hint: "Everything else was bought with it, or nothing else was bought.".to_owned(),
            texts: Vec::new(),
            choice: None,
            word: "Close",
            answer: Rc::new(|_: &Answer| Ok(())),
        });
        return;
    }
    let (ids, words): (Vec<LotId>, Vec<(String, String)>) = lots.into_iter().unzip();
    ask(Ask {
        title: "Which lot does it belong to?".to_owned(),
        hint: "What is left of its lot keeps its price; a lot with nothing left brings its price along.".to_owned(),
        texts: Vec::new(),
        choice: Some(("Lot", words, NONE_YET)),
        word: "Move it there",
        answer: Rc::new(move |answer: &Answer| {
            let lot = ids.get(answer.choice).copied();
            let lot = lot.ok_or((0, "Choose a lot.".to_owned()))?;
            let things = vec![id];
            store.dispatch(LotCommand::Regroup { things, lot }.into(), |_| {});
            Ok(())
        }),
    });
}

/// A lot by what is in it, and what was paid for it when.
fn words(book: &State, lot: &SharedLot<'_>, currency: Currency) -> (String, String) {
    let day = lot.lot.bought.map(format::day_at).unwrap_or_default();
    let total = format::amount(lot.total, currency);
    (lot_words(book, lot), format!("{total}, {day}"))
}

/// Taking it out. A save, so it can be undone.
fn take_out(store: Store, id: ThingId) -> El {
    key("Take out of the haul", move || {
        store.dispatch(Command::TakeOut(id), |saved| {
            if saved {
                route::replace(Route::Haul);
            }
        });
    })
}
