//! One lot's page: how it is shared, what was paid and how, and sorting what was bought unseen.

use std::rc::Rc;

use haulwren_core::book::{Command, LotCommand};
use haulwren_core::id::{LotId, StopId};
use haulwren_core::ledger::Paying;
use haulwren_core::measure::Unit;
use haulwren_core::money::Currency;
use haulwren_core::view::{DecideDraft, LotGroup, as_bought, one_lot};
use haulwren_core::view::{read_size, read_weight, with_own};
use leptos::prelude::untrack;

use super::thing::correct;
use super::{asked, beside, lot, lot_leave};
use crate::format;
use crate::live::worked;
use crate::screens::{choices, history, parts};
use crate::shell::clock;
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask};
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div};

/// The page.
pub fn page(id: LotId) -> El {
    let store = use_store();
    lot_leave::guard(id);
    let view = worked(move || store.read(|book| one_lot(book, id)));
    let title = move || {
        view.with(|lot| match lot {
            None => "Lot".to_owned(),
            Some(lot) if !lot.name.is_empty() => lot.name.clone(),
            Some(lot) => format!("Lot of {}", lot.rows.len() + lot.unsorted),
        })
    };
    let body = move || -> Nodes {
        view.with(|lot| match lot {
            Some(lot) => untrack(|| inside(store, lot)),
            None if store.all_read.get() => {
                parts::line("This lot is not in the haul any more.").into()
            }
            None => parts::status("Reading").into(),
        })
    };
    let history = history::folded(id.record());
    let choices = choices::of_record(id.record());
    let inside = div("form flush").with(choices).show(body);
    beside(title, inside.with(history))
}

fn inside(store: Store, of: &LotGroup) -> Nodes {
    let Some(currency) = store.currency() else {
        return ().into();
    };
    if of.rows.is_empty() && of.unsorted == 0 {
        return left_over(store, of, currency);
    }
    let card = (!of.rows.is_empty()).then(|| lot::card(of, currency, None));
    let sort = (of.unsorted > 0).then(|| sorting(store, of));
    let (id, name) = (of.id, of.name.clone());
    let more = purchase_keys(store, of, currency);
    let keys = div("pair keys-row")
        .with(paid_key(store, of, currency))
        .with(more)
        .with(key("Name it", move || {
            asked::name("Name of the lot", "Name", &name, move |name| {
                store.dispatch(LotCommand::NameLot { lot: id, name }.into(), |_| {});
            });
        }));
    [
        Nodes::from(card),
        sort.into(),
        by(store, of).into(),
        keys.into(),
    ]
    .into()
}

/// Nothing is left of it: what stays is what was not got back, and that can be corrected.
fn left_over(store: Store, of: &LotGroup, currency: Currency) -> Nodes {
    let rest = format::amount(of.not_yet_shared, currency);
    let said = format!(
        "Nothing of it is left. {rest} of what was paid did not come back: it stays in what you spent, on no thing."
    );
    let keys = div("pair keys-row").with(paid_key(store, of, currency));
    [parts::line(&said), keys].into()
}

fn paid_key(store: Store, of: &LotGroup, currency: Currency) -> El {
    let (id, now) = (of.id, of.paid);
    let word = format!("Paid {}", format::amount(now, currency));
    key(&word, move || {
        asked::money("What was paid for it", "Paid", Some(now), move |paid| {
            store.dispatch(LotCommand::SetPaid { lot: id, paid }.into(), |_| {});
        });
    })
}

/// What was paid on top, and where.
fn purchase_keys(store: Store, of: &LotGroup, currency: Currency) -> [El; 2] {
    let (id, on_top) = (of.id, of.extras);
    let word = format!("On top {}", format::amount(on_top, currency));
    [
        key(&word, move || {
            let title = "Paid on top: buyer\u{2019}s premium, sales tax";
            asked::money(title, "On top", Some(on_top), move |extras| {
                store.dispatch(LotCommand::SetExtras { lot: id, extras }.into(), |_| {});
            });
        }),
        key("Where it was", move || choose_stop(store, id)),
    ]
}

/// How a single thing was bought: what a lot's page says of a lot, on the page of the thing.
pub fn of_single(store: Store, id: LotId) -> Nodes {
    let lot = store.read(|book| one_lot(book, id));
    let Some((lot, currency)) = lot.zip(store.currency()) else {
        return ().into();
    };
    let keys = div("pair keys-row").with(purchase_keys(store, &lot, currency));
    [by(store, &lot), keys].into()
}

fn key(word: &str, pressed: impl Fn() + 'static) -> El {
    button("press").on_click(pressed).with(word)
}

/// Cash, or paid in another way.
fn by(store: Store, of: &LotGroup) -> El {
    let (id, at) = (of.id, usize::from(of.by == Paying::Other));
    let chosen: Now<usize> = Rc::new(move || at);
    let choose: Do<usize> = Rc::new(move |at| {
        let by = if at == 0 { Paying::Cash } else { Paying::Other };
        store.dispatch(LotCommand::SetPaying { lot: id, by }.into(), |_| {});
    });
    let words = [("in cash", ""), ("otherwise", "")];
    choice_keys("Paid", "lot-by", false, &words, &chosen, &choose)
}

/// What is left to sort, and keys that sort it.
fn sorting(store: Store, of: &LotGroup) -> El {
    let (id, count) = (of.id, of.unsorted);
    let said = match count {
        1 => "1 thing is not sorted yet. Until then it carries an even share.".to_owned(),
        count => format!("{count} things are not sorted yet. Until then they carry even shares."),
    };
    let correct = move || {
        asked::count("How many are not sorted?", count, move |count| {
            store.dispatch(LotCommand::SetUnsorted { lot: id, count }.into(), |_| {});
        });
    };
    let keys = div("pair keys-row")
        .with(
            button("press go")
                .attr("data-sort", "")
                .on_click(move || sort(store, id))
                .with("Sort one out"),
        )
        .with(key("Correct the number", correct));
    div("form flush").with(parts::line(&said)).with(keys)
}

/// Asks what one of them is. Several alike are sorted at once.
fn sort(store: Store, lot: LotId) {
    let (units, (words, ids, at)) = store.read(|book| (book.units(), correct::kinds(book, None)));
    let answer = move |answer: &Answer| {
        let times = asked::maybe_whole(answer, 4)?.unwrap_or(1).clamp(1, 200);
        if let Some(currency) = asked::currency(store) {
            asked::maybe_amount(answer, 1, currency)?;
        }
        let weight = read_weight(&answer.texts[2], units).map_err(|why| (2, why))?;
        let size = read_size(&answer.texts[3], units).map_err(|why| (3, why))?;
        let draft = DecideDraft {
            name: answer.texts[0].clone(),
            likely: answer.texts[1].clone(),
            kind: ids.get(answer.choice).copied().flatten(),
            ..DecideDraft::default()
        };
        let one = store.read(|book| {
            let one = as_bought(book, &draft, clock::now())?;
            Some(with_own(book, one, weight, size, clock::now()))
        });
        let Some(one) = one else {
            return Err((0, "The clock of this device is off.".to_owned()));
        };
        let things = vec![one; usize::try_from(times).unwrap_or(1)];
        store.dispatch(LotCommand::Sort { lot, things }.into(), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "What is it?".to_owned(),
        hint: String::new(),
        texts: vec![
            AskText::words("Name of the thing", ""),
            AskText::number("Sells for", "").hint("It may stay empty."),
            AskText {
                unit: units.weight().symbol(),
                ..AskText::words("Weight", "")
            }
            .hint("Empty: as its kind."),
            AskText {
                unit: units.length().symbol(),
                ..AskText::words("Size as it is packed", "")
            }
            .hint("Three sides, like 30 x 20 x 5. Empty: as its kind."),
            AskText::number("How many alike", "1"),
        ],
        choice: Some(("Kind", words, at)),
        word: "Sort it out",
        answer: Rc::new(answer),
    });
}

/// Asks at which stop it was bought.
fn choose_stop(store: Store, lot: LotId) {
    let (stops, now) = store.read(|book| {
        let mut stops: Vec<(Option<StopId>, String, String)> =
            vec![(None, "At none".to_owned(), String::new())];
        for trip in haulwren_core::view::trips(book) {
            let day = trip.day.map(format::day_short).unwrap_or_default();
            let rows = haulwren_core::view::trip(book, trip.id);
            for row in rows.into_iter().flat_map(|trip| trip.stops) {
                stops.push((Some(row.stop.id), row.stop.title(), day.clone()));
            }
        }
        let now = book.tables.lots.get(&lot.0).and_then(|lot| lot.value.stop);
        (stops, now)
    });
    let at = stops.iter().position(|(id, ..)| *id == now).unwrap_or(0);
    let ids: Vec<Option<StopId>> = stops.iter().map(|(id, ..)| *id).collect();
    let words = stops
        .into_iter()
        .map(|(_, word, day)| (word, day))
        .collect();
    ask(Ask {
        title: "Where was it bought?".to_owned(),
        hint: String::new(),
        texts: Vec::new(),
        choice: Some(("Stop", words, at)),
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            let stop = ids.get(answer.choice).copied().flatten();
            let command: Command = LotCommand::SetStop { lot, stop }.into();
            store.dispatch(command, |_| {});
            Ok(())
        }),
    });
}
