//! What is known of a thing: its figures, its marks, what to beware of.

use std::rc::Rc;

use haulwren_core::book::{KnownKind, Marks, Sales, State, ThingCommand};
use haulwren_core::id::{LotId, ThingId};
use haulwren_core::money::{Currency, Money};
use haulwren_core::packing::cautions;
use haulwren_core::view::HaulRow;
use haulwren_core::worth::Sells;

use super::super::asked;
use super::super::row;
use super::super::sums::sum;
use super::{correct, part};
use crate::format;
use crate::route::Route;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask};
use crate::ui::el::{El, Nodes, button, div, el, span};

/// How it stands now, with keys that correct what was paid and what it sells for; how it was judged; the way to its lot.
pub fn figures(store: Store, row: &HaulRow, currency: Currency) -> Nodes {
    let amount = |money| format::amount(money, currency);
    let id = row.id;
    let sells = match row.sells {
        Some(sells) => spread(sells, currency),
        None => "no estimate yet".to_owned(),
    };
    let loss =
        |word: &str, money: Money| sum(word, format::or_loss(money, currency), money.is_negative());
    let now = store.read(|book| Sales::of(book).of_thing(id));
    let kept = now.map(|now| [loss("You keep", now.keep), loss("If it sells", now.if_sold)]);
    let work = (!row.work.is_zero()).then(|| sum("Work", amount(row.work), false));
    let paid = row.paid;
    let sums = el("dl")
        .class("haul-sums flush figures")
        .attr("data-thing", &id.to_string())
        .with(tapped("Paid", "paid", &amount(paid), move || {
            correct::paid(store, id, paid);
        }))
        .with(work)
        .with(tapped("Sells for", "sells", &sells, move || {
            correct::sells(store, id);
        }))
        .with(kept.map(Vec::from));
    let judged = row.expected.as_ref().map(|expected| {
        let verdict = format!("{}, you keep", expected.verdict.word());
        let sells = expected
            .sells
            .map(|sells| sum("Sells for", spread(sells, currency), false));
        el("dl")
            .class("haul-sums flush figures")
            .attr("data-judged", "")
            .with(sum("Asked", amount(expected.ask), false))
            .with(sells)
            .with(loss(&verdict, expected.keep))
    });
    let judged = judged.map(|judged| part("As judged when bought", judged));
    let lot = row
        .lot
        .filter(|lot| store.read(|book| has_page(book, *lot)));
    let lot = lot.map(|lot| {
        let free = store
            .read(|book| book.lot(lot)?.paid)
            .is_none_or(Money::is_zero);
        el("a")
            .class("row")
            .attr("href", &Route::Lot(lot).href())
            .with(
                span("what")
                    .with("The lot that it was bought in")
                    .with(row::marks(row, free)),
            )
    });
    [part("Now", sums).into(), judged.into(), Nodes::from(lot)].into()
}

/// Low, likely and high, as far as they differ: "18.00 to 34.00, likely 26.00".
fn spread(sells: Sells, currency: Currency) -> String {
    let amount = |money| format::amount(money, currency);
    let (low, likely, high) = (sells.low(), sells.likely(), sells.high());
    if low == high {
        amount(likely)
    } else {
        format!("{} ({} to {})", amount(likely), amount(low), amount(high))
    }
}

/// A figure that is tapped to correct it.
fn tapped(word: &str, name: &str, shown: &str, pressed: impl Fn() + 'static) -> El {
    let key = button("figure-key")
        .attr("data-correct", name)
        .attr("aria-label", &format!("{word} {shown}, change it"))
        .on_click(pressed)
        .with(shown);
    div("").with(el("dt").with(word)).with(el("dd").with(key))
}

/// Whether a lot has a page of its own: one of a single thing that carries all of its price is told on the thing's page.
pub fn has_page(book: &State, lot: LotId) -> bool {
    let shared = book.shared_lot(lot);
    shared.is_none_or(|lot| {
        let split = &lot.split;
        lot.things.len() != 1 || !split.unsorted.is_empty() || !split.not_yet_shared.is_zero()
    })
}

/// What it is and how it is sent; a key that corrects it.
pub fn facts(id: ThingId) -> El {
    let store = use_store();
    let change = button("press")
        .attr("data-facts", "")
        .on_click(move || correct::facts(store, id))
        .with("Change kind, weight, size");
    let said = move || -> Nodes {
        let told = store.read(|book| {
            let thing = book.thing(id)?;
            let units = book.units();
            let kind = thing.kind.and_then(|kind| book.kind(kind));
            let weight = thing.weight.map(|weight| weight.shown(units));
            let of_kind =
                |kind: &KnownKind| format!("{}, as its kind", kind.piece.weight.shown(units));
            let currency = book.currency()?;
            let amount = |money| format::amount(money, currency);
            Some([
                ("kind", kind.as_ref().map(|kind| kind.name.clone())),
                ("weight", weight.or_else(|| kind.as_ref().map(of_kind))),
                ("size", thing.size.map(|size| size.shown(units))),
                ("postage", thing.postage.map(amount)),
                ("packing", thing.packing.map(amount)),
            ])
        });
        let mut rows: Vec<El> = Vec::new();
        for (word, text) in told.into_iter().flatten() {
            if let Some(text) = text {
                rows.push(el("dt").with(word));
                rows.push(el("dd").with(text));
            }
        }
        (!rows.is_empty())
            .then(|| el("dl").class("marks").with(rows))
            .into()
    };
    part("What it is", div("bare").show(said)).with(change)
}

/// Colour, size, maker, flaw, pieces; and what to beware of.
pub fn marks(id: ThingId) -> El {
    let store = use_store();
    let change = button("press")
        .attr("data-marks", "")
        .on_click(move || ask_marks(store, id))
        .with("Say its marks");
    let said = move || -> Nodes {
        let (marks, beware) = store.read(|book| {
            let Some(thing) = book.thing(id) else {
                return (Marks::default(), Vec::new());
            };
            let kind = thing.kind.and_then(|kind| book.kind(kind));
            let name = thing.name.as_deref().unwrap_or_default();
            let of_kind = kind.map_or(&[][..], |kind| kind.cautions);
            (book.marks(id), cautions(name, of_kind))
        });
        let all = [
            ("colour", marks.colour),
            ("size", marks.label),
            ("maker", marks.maker),
            ("flaw", marks.flaw),
            (
                "pieces",
                marks
                    .pieces
                    .map(|count| count.to_string())
                    .unwrap_or_default(),
            ),
        ];
        let mut rows: Vec<El> = Vec::new();
        for (word, text) in all {
            if !text.is_empty() {
                rows.push(el("dt").with(word));
                rows.push(el("dd").with(text));
            }
        }
        let list = (!rows.is_empty()).then(|| el("dl").class("marks").with(rows));
        let beware: Vec<El> = beware
            .into_iter()
            .map(|caution| {
                parts::line("")
                    .with(span("mark").with("mind"))
                    .with(" ")
                    .with(caution.sentence())
            })
            .collect();
        [Nodes::from(list), beware.into()].into()
    };
    part("Marks", div("bare").show(said)).with(change)
}

fn ask_marks(store: Store, id: ThingId) {
    let marks = store.read(|book| book.marks(id));
    let pieces = marks.pieces.map(|pieces| pieces.to_string());
    let answer = move |answer: &Answer| {
        let [colour, label, maker, flaw] = [0, 1, 2, 3].map(|at: usize| answer.texts[at].clone());
        let pieces = asked::maybe_whole(answer, 4)?;
        let pieces = pieces
            .map(u16::try_from)
            .transpose()
            .map_err(|_| (4, "That is too many.".to_owned()))?;
        let marks = Marks {
            colour,
            label,
            maker,
            flaw,
            pieces,
        };
        store.dispatch(ThingCommand::Mark { thing: id, marks }.into(), |_| {});
        Ok(())
    };
    ask(Ask {
        title: "Marks".to_owned(),
        hint: "What tells it apart. Everything may stay empty.".to_owned(),
        texts: vec![
            AskText::words("Colour", &marks.colour),
            AskText::words("Size on its label", &marks.label),
            AskText::words("Maker", &marks.maker),
            AskText::words("Flaw", &marks.flaw),
            AskText::number("Pieces", &pieces.unwrap_or_default())
                .hint("2 for a pair. Empty: one."),
        ],
        choice: None,
        word: "Save",
        answer: Rc::new(answer),
    });
}
