//! What is known of a thing: its figures, its marks, what to beware of.

use std::rc::Rc;

use haulwren_core::book::ThingCommand;
use haulwren_core::id::ThingId;
use haulwren_core::money::{Currency, Money};
use haulwren_core::packing::cautions;
use haulwren_core::view::HaulRow;

use super::super::asked;
use super::super::row;
use super::super::sums::sum;
use super::part;
use crate::format;
use crate::route::Route;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, AskText, ask};
use crate::ui::el::{El, Nodes, button, div, el, span};
use haulwren_core::book::Marks;

/// What it cost, sells for, and how it was judged; the way to its lot.
pub fn figures(store: Store, row: &HaulRow, currency: Currency) -> Nodes {
    let amount = |money| format::amount(money, currency);
    let sells = row
        .sells
        .map(|sells| sum("Sells for", amount(sells.likely()), false));
    let judged = row.expected.as_ref().map(|expected| {
        let word = format!("{}, you keep", expected.verdict.word());
        sum(
            &word,
            format::or_loss(expected.keep, currency),
            expected.keep.is_negative(),
        )
    });
    let work = (!row.work.is_zero()).then(|| sum("Work", amount(row.work), false));
    let sums = el("dl")
        .class("haul-sums flush")
        .attr("data-thing", &row.id.to_string())
        .with(sum("Paid", amount(row.paid), false))
        .with(work)
        .with(sells)
        .with(judged);
    let lot = row.lot.map(|lot| {
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
    [sums.into(), Nodes::from(lot)].into()
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
