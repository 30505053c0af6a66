//! The sheet with the lines behind a figure of the pile, or the reasons behind its verdict.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::appraise::Why;
use haulwren_core::view::{PileView, UpTo};

use super::{Desk, Opened};
use crate::screens::decide::title_of;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{Do, El, Nodes, button, div, el};
use crate::ui::rail::{Figure, Touched};
use crate::ui::sheet::sheet;
use crate::ui::why::{reasons, why_lines};

/// The sheet.
pub fn why_sheet(desk: Desk) -> El {
    let view = use_store().pile_view();
    let title = move || match desk.opened.get() {
        Some(Opened::Rail(Touched::Figure(figure))) => word(figure).to_owned(),
        Some(Opened::Thing(at)) => view
            .with(|view| Some(view.as_ref()?.rows.get(at)?.name.clone()))
            .unwrap_or_default(),
        _ => "Why".to_owned(),
    };
    let body = move || {
        let opened = desk.opened.get()?;
        view.with(|view| Some(inside(view.as_ref()?, opened)))
    };
    let is_open = worked(move || desk.opened.with(Option::is_some));
    let close: Do<()> = Rc::new(move |()| desk.opened.set(None));
    sheet(is_open, &close, Rc::new(title), false, body)
}

fn word(figure: Figure) -> &'static str {
    match figure {
        Figure::Ask => "Asked, one by one",
        Figure::BuyerPays => "Buyers pay",
        figure => title_of(figure),
    }
}

fn inside(view: &PileView, opened: Opened) -> Nodes {
    match opened {
        Opened::Thing(at) => [thing(view, at), alike(at).into()].into(),
        Opened::Rail(Touched::Figure(figure)) => figure_of(view, figure),
        Opened::Rail(Touched::Verdict) => verdict(view),
    }
}

/// One thing: the lines behind the most to pay for it, or why there is none.
fn thing(view: &PileView, at: usize) -> Nodes {
    let Some(row) = view.rows.get(at) else {
        return ().into();
    };
    let (word, note) = match &row.up_to {
        UpTo::Most(_) => ("No more than", ""),
        UpTo::Nothing(_) => (
            "Left before you buy",
            "Even for nothing it breaks your rules: it is worth nothing.",
        ),
        UpTo::Unknown(sentence) => return parts::line(sentence).into(),
    };
    [lines(view, &row.lines(), word), parts::support(note)].into()
}

/// How many alike lie on the pile, and keys for more and fewer.
fn alike(at: usize) -> El {
    let store = use_store();
    let count = move || store.pile(|pile| pile.alike(at));
    let more = move |word: &str, times: usize| {
        button("press")
            .attr("data-more", &times.to_string())
            .on_click(move || {
                store.edit_pile(|pile| pile.more(at, times));
            })
            .with(word)
    };
    let fewer = button("press")
        .attr("data-more", "-1")
        .flag("disabled", move || count() < 2)
        .on_click(move || store.edit_pile(|pile| pile.take_back(at)))
        .with("One fewer");
    let said = move || match count() {
        1 => "One like it on the pile.".to_owned(),
        count => format!("\u{d7} {count} alike on the pile, each at this price."),
    };
    el("section")
        .class("chips")
        .with(parts::heading("More alike"))
        .with(el("p").attr("role", "status").text_of(said))
        .with(div("chip-row").with([more("One more", 1), more("Five more", 5), fewer]))
}

fn figure_of(view: &PileView, figure: Figure) -> Nodes {
    if figure == Figure::Ask {
        return lines(view, &view.asked_lines(), word(figure)).into();
    }
    let Some(judged) = &view.judged else {
        return parts::line("Nothing ticked can be judged yet.").into();
    };
    let opened = figure.opens(judged.all.ask.is_some());
    let made = opened.map(|opened| judged.why(opened)).unwrap_or_default();
    let note = match figure {
        Figure::Ceiling => {
            "The sum of what each thing is worth to you. What is worth nothing adds nothing."
        }
        Figure::Keep => "",
        _ => "Of the things that are worth something.",
    };
    [lines(view, &made, word(figure)), parts::support(note)].into()
}

fn verdict(view: &PileView) -> Nodes {
    let found = view
        .judged
        .iter()
        .map(|judged| reasons(&judged.all.reasons, view.currency));
    let hint = parts::support("Touch any figure to see the lines behind it.");
    [Nodes::from(found.collect::<Vec<_>>()), hint.into()].into()
}

fn lines(view: &PileView, lines: &[Why], word: &str) -> El {
    let total = lines.iter().map(|line| line.amount).sum();
    why_lines(lines, word, total, view.currency)
}
