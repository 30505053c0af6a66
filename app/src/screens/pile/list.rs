//! The things of the pile: ticked or not, what was asked, and the most to pay; under them their sums.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{PileRow, PileView, UpTo};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

use super::{Desk, Opened};
use crate::format;
use crate::store::{Store, use_store};
use crate::ui::el::{El, Nodes, Now, button, div, el, span, svg};
use crate::ui::rail::{Figure, Touched};

/// The list.
pub fn list(desk: Desk) -> El {
    let store = use_store();
    let count = worked(move || store.pile(|pile| pile.things.len()));
    let rows = move || {
        let rows = (0..count.get()).map(|at| row(store, desk, at));
        rows.collect::<Vec<_>>()
    };
    let up_to = move || (!desk.hides.get()).then(|| span("up-to").with("up to"));
    let heads = div("pile-heads")
        .attr("aria-hidden", "true")
        .with(span("asked").with("asked"))
        .show(up_to);
    let rows = div("pile-rows").show(rows).with(put_back());
    div("bare").with(heads).with(div("pile-list").with(rows))
}

/// One thing.
fn row(store: Store, desk: Desk, at: usize) -> El {
    let view = store.pile_view();
    let of = move |read: &dyn Fn(&PileRow, Currency) -> String| {
        view.with(|view| {
            let view = view.as_ref()?;
            Some(read(view.rows.get(at)?, view.currency))
        })
        .unwrap_or_default()
    };
    let name = worked(move || of(&|row, _| row.name.clone()));
    let is_in = move || store.pile(|pile| pile.things.get(at).is_some_and(|thing| thing.in_it));
    let tick = el("input")
        .attr("type", "checkbox")
        .checked_of(Rc::new(is_in))
        .on("change", move |event| {
            let input = event
                .target()
                .and_then(|on| on.dyn_into::<HtmlInputElement>().ok());
            let ticked = input.is_some_and(|input| input.checked());
            store.edit_pile(|pile| pile.tick(at, ticked));
        });
    let sells = move || {
        let hides = desk.hides.get();
        of(&|row, currency| {
            if hides {
                String::new()
            } else {
                says_of(row, currency)
            }
        })
    };
    let what = el("label").class("what").with(tick).with(
        span("")
            .with(span("name").text_of(move || name.get()))
            .with(" ")
            .with(el("small").text_of(sells)),
    );
    let is_priced = worked(move || store.pile(|pile| pile.at == Some(at)));
    let asked = move || of(&|row, currency| asked_of(row, currency));
    let said = move || format!("Asked for {}, {}", name.get(), asked());
    let price = move || {
        desk.refused.set(None);
        store.edit_pile(|pile| pile.go(Some(at)));
    };
    let asked = button("asked")
        .attr("data-asked", &at.to_string())
        .state("aria-pressed", move || is_priced.get())
        .attr_of("aria-label", move || Some(said()))
        .on_click(price)
        .with(span("n").text_of(asked));
    let up_to = move || {
        let (shown, hides) = (of(&up_to_of), desk.hides.get());
        (!hides).then(|| {
            let said = format!("{}, up to {shown}", name.get());
            button(if shown.len() > 7 {
                "up-to word"
            } else {
                "up-to"
            })
            .attr("data-figure", "up-to")
            .attr("aria-label", &said)
            .on_click(move || desk.opened.set(Some(Opened::Thing(at))))
            .with(shown)
        })
    };
    let row = div("pile-row").attr("data-row", &at.to_string());
    row.class_if("out", move || !is_in())
        .with(what)
        .with(asked)
        .show(up_to)
}

/// What it sells for, and what is kept at most of what is worth nothing.
fn says_of(row: &PileRow, currency: Currency) -> String {
    let sells = row
        .sells
        .map(|sells| format!("sells {}", format::amount(sells, currency)));
    let keep = match &row.up_to {
        UpTo::Most(_) => None,
        UpTo::Nothing(keep) if keep.is_negative() => Some("a loss even free".to_owned()),
        UpTo::Nothing(keep) => Some(format!(
            "you keep {} at most",
            format::amount(*keep, currency)
        )),
        UpTo::Unknown(sentence) => Some(sentence.clone()),
    };
    let both: Vec<String> = sells.into_iter().chain(keep).collect();
    both.join(", ")
}

fn asked_of(row: &PileRow, currency: Currency) -> String {
    row.asked.map_or_else(
        || "\u{2013}".to_owned(),
        |asked| format::amount(asked, currency),
    )
}

fn up_to_of(row: &PileRow, currency: Currency) -> String {
    match row.up_to {
        UpTo::Most(most) => format::amount(most, currency),
        UpTo::Nothing(_) => "worth nothing".to_owned(),
        UpTo::Unknown(_) => "?".to_owned(),
    }
}

/// What was put back last, with a key that lays it there again.
pub fn put_back() -> El {
    let store = use_store();
    let back = worked(move || {
        store.pile(|pile| match &pile.back[..] {
            [] => String::new(),
            [thing] if !thing.draft.name.is_empty() => format!("{} put back", thing.draft.name),
            [_] => "1 thing put back".to_owned(),
            things => format!("{} things put back", things.len()),
        })
    });
    div("bare").show(move || {
        let said = back.get();
        (!said.is_empty()).then(|| {
            div("row")
                .with(span("what").attr("role", "status").with(said))
                .with(
                    button("press")
                        .attr("data-key", "undo-back")
                        .on_click(move || store.edit_pile(haulwren_core::view::Pile::undo_back))
                        .with("Undo"),
                )
        })
    })
}

/// The sums over those that are ticked. Each opens its lines.
pub fn sums(desk: Desk) -> El {
    let view = use_store().pile_view();
    let of = move |read: &dyn Fn(&PileView) -> String| {
        view.with(|view| view.as_ref().map(read))
            .unwrap_or_default()
    };
    let word = move || {
        of(&|view| match (view.in_it, view.rows.len()) {
            (count, all) if count < all => format!("{count} of {all}"),
            (1, _) => "One thing".to_owned(),
            (all, _) => format!("All {all}"),
        })
    };
    let key =
        move |class: &str, figure: Figure, name: &'static str, of_what: Now<Option<Money>>| {
            let said = of_what.clone();
            let amount = move |money: Option<Money>| {
                let word = |view: &PileView| match money {
                    Some(money) => format::amount(money, view.currency),
                    None => String::new(),
                };
                of(&word)
            };
            button(class)
                .attr("data-sum", name)
                .attr_of("aria-label", move || {
                    Some(format!("{name} {}", amount(said())))
                })
                .on_click(move || desk.opened.set(Some(Opened::Rail(Touched::Figure(figure)))))
                .text_of(move || amount(of_what()))
        };
    let money = move |read: fn(&PileView) -> Option<Money>| -> Now<Option<Money>> {
        Rc::new(move || view.with(|view| view.as_ref().and_then(read)))
    };
    let asked = key("asked", Figure::Ask, "Asked", money(|view| view.asked));
    let pointer = svg("svg")
        .class("hollow-pointer")
        .attr("viewBox", "0 0 18 14")
        .attr("aria-hidden", "true")
        .with(svg("path").attr("d", "M1.5 1.5h15L9 12z"));
    let up_to = move || -> Nodes {
        let shown = !desk.hides.get();
        shown
            .then(|| {
                key(
                    "up-to",
                    Figure::Ceiling,
                    "Up to",
                    money(|view| Some(view.ceiling)),
                )
            })
            .into()
    };
    div("pile-sums")
        .with(span("what").text_of(word))
        .show(move || (!desk.hides.get()).then(|| pointer.clone()))
        .with(asked)
        .show(up_to)
}
