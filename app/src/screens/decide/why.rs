//! The sheet with the lines behind a figure, or the reasons behind the verdict.

use haulwren_core::view::DecideView;
use leptos::prelude::*;

use super::Desk;
use crate::store::use_store;
use crate::ui::rail::{Figure, RailFacts, Touched};
use crate::ui::sheet::Sheet;
use crate::ui::why::{Reasons, WhyLines};

/// The sheet.
#[component]
pub fn WhySheet(desk: Desk) -> impl IntoView {
    let view = use_store().decide_view();
    let open = Signal::derive(move || desk.opened.get().is_some());
    let title = Signal::derive(move || match desk.opened.get() {
        Some(Touched::Figure(figure)) => title_of(figure).to_owned(),
        _ => "Why".to_owned(),
    });
    let body = move || {
        let touched = desk.opened.get()?;
        view.with(|view| Some(inside(view.as_ref()?, touched)))
    };
    view! {
        <Sheet open on_close=move |()| desk.opened.set(None) title>
            {body}
        </Sheet>
    }
}

fn title_of(figure: Figure) -> &'static str {
    match figure {
        Figure::Ceiling => "No more than",
        Figure::Ask => "Asking",
        Figure::BuyerPays => "Buyer pays",
        Figure::Pay => "You pay",
        Figure::Keep => "What you keep",
        Figure::Aside => "Set aside",
        Figure::Packing => "Packing",
        Figure::Postage => "Postage",
        Figure::Cut => "Venue’s cut",
        Figure::LowKeep => "If it sells low",
    }
}

fn inside(view: &DecideView, touched: Touched) -> AnyView {
    let Some(judged) = &view.appraisal.judged else {
        return ().into_any();
    };
    let currency = view.currency;
    let venue = view
        .venues
        .iter()
        .find(|card| card.judged)
        .map(|card| format!("Judged on {}.", card.name));
    let figure = match touched {
        Touched::Figure(figure) => Some(figure),
        Touched::Verdict => None,
    };
    let opened = figure.and_then(|figure| figure.opens(judged.ask.is_some()));
    if let (Some(figure), Some(opened)) = (figure, opened) {
        let lines = judged.why(opened);
        if lines.is_empty() {
            return view! { <Reasons reasons=judged.reasons.clone() currency /> }.into_any();
        }
        let total = lines.iter().map(|line| line.amount).sum();
        let note = match figure {
            Figure::LowKeep => Some("1 in 10 go lower than the low price."),
            Figure::Aside => Some("Shares of the thing’s own price, from your house rules."),
            _ => None,
        };
        return view! {
            <WhyLines lines total_word=title_of(figure).to_owned() total currency />
            <p class="support">{venue} " " {note}</p>
        }
        .into_any();
    }
    let sentence = RailFacts::of(judged, currency, false).sentence();
    let missing = view
        .appraisal
        .missing
        .iter()
        .map(|missing| view! { <p>{missing.sentence()}</p> })
        .collect_view();
    view! {
        {missing}
        <Reasons reasons=judged.reasons.clone() currency />
        <p class="support">{venue} " " {sentence}</p>
    }
    .into_any()
}
