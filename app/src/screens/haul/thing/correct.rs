//! Correcting what is known of a thing: what was paid for it, what it sells for, what it is and how it is sent.

use std::rc::Rc;

use haulwren_core::book::{Facts, LotCommand, State, ThingCommand};
use haulwren_core::id::{KindId, ThingId};
use haulwren_core::measure::Unit;
use haulwren_core::money::{Money, plain};
use haulwren_core::view::{read_size, read_weight, sent_again, size_text, weight_text};
use haulwren_core::worth::Sells;

use super::super::asked;
use super::facts::has_page;
use crate::shell::clock;
use crate::store::Store;
use crate::ui::ask::{Answer, Ask, AskText, ask};

/// Asks what was paid for it. Of a lot with others it is its share, fixed by hand.
pub fn paid(store: Store, id: ThingId, now: Money) {
    let of = store.read(|book| {
        let lot = book.thing(id)?.lot?;
        let paid = book.lot(lot)?.paid?;
        Some((lot, paid, has_page(book, lot)))
    });
    match of {
        Some((lot, now, false)) => {
            asked::money("What was paid for it", "Paid", Some(now), move |paid| {
                store.dispatch(LotCommand::SetPaid { lot, paid }.into(), |_| {});
            });
        }
        _ => share(store, id, now),
    }
}

/// Asks for its share of its lot.
pub fn share(store: Store, id: ThingId, now: Money) {
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let fixed = store.read(|book| book.thing(id).and_then(|thing| thing.share));
    let value = plain(fixed.unwrap_or(now), currency);
    ask(Ask {
        title: "Its share of the price".to_owned(),
        hint: "Fixed by hand; the rest is shared over the others. Empty: shared like them."
            .to_owned(),
        texts: vec![AskText::number("Share", &value)],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            let share = asked::maybe_amount(answer, 0, currency)?;
            store.dispatch(ThingCommand::FixShare { thing: id, share }.into(), |_| {});
            Ok(())
        }),
    });
}

/// Asks what it sells for: likely, low and high.
pub fn sells(store: Store, id: ThingId) {
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let now = store.read(|book| book.thing(id).and_then(|thing| thing.sells));
    let text = |price: fn(Sells) -> Money| {
        let typed = now.filter(|sells| price(*sells) != sells.likely());
        typed
            .map(|sells| plain(price(sells), currency))
            .unwrap_or_default()
    };
    let likely = now.map(|sells| plain(sells.likely(), currency));
    ask(Ask {
        title: "What it sells for".to_owned(),
        hint: "What was judged when you bought it stays as it was.".to_owned(),
        texts: vec![
            AskText::number("Likely", &likely.unwrap_or_default()),
            AskText::number("Low", &text(Sells::low))
                .hint("1 in 10 sells for less. Empty: the likely price."),
            AskText::number("High", &text(Sells::high))
                .hint("1 in 10 sells for more. Empty: the likely price."),
        ],
        choice: None,
        word: "Save",
        answer: Rc::new(move |answer: &Answer| {
            let [likely, low, high] = [0, 1, 2].map(|at| asked::maybe_amount(answer, at, currency));
            let (likely, low, high) = (likely?, low?, high?);
            let sells = match likely {
                Some(likely) => Some(Sells::new(low, likely, high).map_err(|error| {
                    let is_low = low.is_some_and(|low| low > likely);
                    (if is_low { 1 } else { 2 }, error.to_string())
                })?),
                None if low.or(high).is_some() => {
                    return Err((0, "Say the likely price too.".to_owned()));
                }
                None => None,
            };
            store.dispatch(ThingCommand::SetSells { thing: id, sells }.into(), |_| {});
            Ok(())
        }),
    });
}

/// The kinds to choose from, with none first: their words, their ids, and the place of the one that stands.
pub fn kinds(
    book: &State,
    now: Option<KindId>,
) -> (Vec<(String, String)>, Vec<Option<KindId>>, usize) {
    let mut words = vec![("No kind yet".to_owned(), String::new())];
    let mut ids = vec![None];
    for kind in book.kinds() {
        words.push((kind.name, String::new()));
        ids.push(Some(kind.id));
    }
    let at = ids.iter().position(|id| *id == now).unwrap_or(0);
    (words, ids, at)
}

/// Asks what it is and how it is sent. Postage and packing that are left as they stand are worked out anew when the parcel is another one.
pub fn facts(store: Store, id: ThingId) {
    let Some(currency) = asked::currency(store) else {
        return;
    };
    let known = store.read(|book| {
        let thing = book.thing(id)?.clone();
        let (units, kinds) = (book.units(), kinds(book, thing.kind));
        Some((thing, units, kinds))
    });
    let Some((thing, units, (words, ids, at))) = known else {
        return;
    };
    let amount = |money: Option<Money>| {
        money
            .map(|money| plain(money, currency))
            .unwrap_or_default()
    };
    let texts = vec![
        AskText {
            unit: units.weight().symbol(),
            ..AskText::words("Weight", &weight_text(thing.weight, units))
        }
        .hint("Empty: as its kind."),
        AskText {
            unit: units.length().symbol(),
            ..AskText::words("Size as it is packed", &size_text(thing.size, units))
        }
        .hint("Three sides, like 30 x 20 x 5. Empty: as its kind."),
        AskText::number("Postage", &amount(thing.postage)),
        AskText::number("Packing", &amount(thing.packing)),
    ];
    let before = (thing.kind, thing.weight, thing.size);
    let answer = move |answer: &Answer| {
        let weight = read_weight(&answer.texts[0], units).map_err(|why| (0, why))?;
        let size = read_size(&answer.texts[1], units).map_err(|why| (1, why))?;
        let mut facts = Facts {
            kind: ids.get(answer.choice).copied().flatten(),
            weight,
            size,
            postage: asked::maybe_amount(answer, 2, currency)?,
            packing: asked::maybe_amount(answer, 3, currency)?,
        };
        if before != (facts.kind, facts.weight, facts.size) {
            let posted = store.read(|book| {
                let thing = book.thing(id)?;
                sent_again(book, thing, &facts, clock::now())
            });
            if let Some(posted) = posted {
                if facts.postage == thing.postage {
                    facts.postage = posted.postage.or(facts.postage);
                }
                if facts.packing == thing.packing {
                    facts.packing = Some(posted.packing);
                }
            }
        }
        store.dispatch(ThingCommand::SetFacts { thing: id, facts }.into(), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "What it is".to_owned(),
        hint: "Postage and packing left as they are follow its weight and size.".to_owned(),
        texts,
        choice: Some(("Kind", words, at)),
        word: "Save",
        answer: Rc::new(answer),
    });
}
