//! What can be done with a thing: priced, kept, worked on, given back, moved to another lot, taken out.

use std::rc::Rc;

use haulwren_core::book::{Command, LotCommand, ThingCommand};
use haulwren_core::id::{LotId, ThingId, WorkId};
use haulwren_core::money::Money;
use haulwren_core::worth::Sells;

use super::super::asked;
use super::{part, row_of};
use crate::format;
use crate::live::worked;
use crate::route::{self, Route};
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask};
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
        key("What it sells for", move || price(store, id)),
        key("Fix its share", move || share(store, id)),
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

fn price(store: Store, id: ThingId) {
    let now = row_of(store, id, |row| row.sells.map(Sells::likely)).flatten();
    asked::money("What it sells for", "Likely", now, move |likely| {
        let command = ThingCommand::EditMany {
            things: vec![id],
            kind: None,
            likely: Some(likely),
        };
        store.dispatch(command.into(), |_| {});
    });
}

fn share(store: Store, id: ThingId) {
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let now = store.read(|book| book.thing(id).and_then(|thing| thing.share));
    let value = now.map(|now| haulwren_core::money::plain(now, currency));
    ask(Ask {
        title: "Its share of the price".to_owned(),
        hint: "Fixed by hand; the rest is shared over the others. Empty: shared like them."
            .to_owned(),
        texts: vec![AskText::number("Share", &value.unwrap_or_default())],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            let share = asked::maybe_amount(answer, 0, currency)?;
            store.dispatch(ThingCommand::FixShare { thing: id, share }.into(), |_| {});
            Ok(())
        }),
    });
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

/// Asks which lot it belongs to, among the latest.
fn regroup(store: Store, id: ThingId) {
    const MOST: usize = 12;
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let own = row_of(store, id, |row| row.lot).flatten();
    let lots: Vec<(LotId, String, String)> = store.read(|book| {
        let mut found = Vec::new();
        for lot in book.lots().iter().rev() {
            if Some(lot.id) == own || found.len() == MOST {
                continue;
            }
            let first = lot.things.first().and_then(|thing| book.thing(*thing));
            let first = first
                .and_then(|thing| thing.name.clone())
                .unwrap_or_default();
            let name = lot.lot.name.clone().unwrap_or(first);
            let day = lot.lot.bought.map(format::day_at).unwrap_or_default();
            let total = format::amount(lot.total, currency);
            found.push((lot.id, format!("{total}, {day}"), name));
        }
        found
    });
    let ids: Vec<LotId> = lots.iter().map(|(id, ..)| *id).collect();
    let words = lots
        .into_iter()
        .map(|(_, word, name)| (word, name))
        .collect();
    ask(Ask {
        title: "Which lot does it belong to?".to_owned(),
        hint: "What is left of its lot keeps its price; a lot with nothing left brings its price along.".to_owned(),
        texts: Vec::new(),
        choice: Some(("Lot", words, 0)),
        word: "Move it there",
        answer: Rc::new(move |answer: &Answer| {
            let lot = ids.get(answer.choice).copied();
            let lot = lot.ok_or((0, "There is no other lot.".to_owned()))?;
            let things = vec![id];
            store.dispatch(LotCommand::Regroup { things, lot }.into(), |_| {});
            Ok(())
        }),
    });
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
