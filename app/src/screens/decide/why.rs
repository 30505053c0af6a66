//! The sheet with the lines behind a figure, or the reasons behind the verdict.

use crate::live::worked;
use std::rc::Rc;

use haulwren_core::view::DecideView;

use super::Desk;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{Do, El, Nodes};
use crate::ui::rail::{Figure, Touched};
use crate::ui::sheet::sheet;
use crate::ui::why::{reasons, why_lines};

/// The sheet.
pub fn why_sheet(desk: Desk) -> El {
    let view = use_store().decide_view();
    let title = move || match desk.opened.get() {
        Some(Touched::Figure(figure)) => title_of(figure).to_owned(),
        _ => "Why".to_owned(),
    };
    let body = move || {
        let touched = desk.opened.get()?;
        view.with(|view| Some(inside(view.as_ref()?, touched)))
    };
    let is_open = worked(move || desk.opened.with(Option::is_some));
    let close: Do<()> = Rc::new(move |()| desk.opened.set(None));
    sheet(is_open, &close, Rc::new(title), false, body)
}

/// What a figure is called.
pub fn title_of(figure: Figure) -> &'static str {
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
        Figure::Costs => "Costs",
        Figure::LowKeep => "If it sells low",
    }
}

fn inside(view: &DecideView, touched: Touched) -> Nodes {
    let Some(judged) = &view.appraisal.judged else {
        return ().into();
    };
    let currency = view.currency;
    let venue = view.venues.iter().find(|card| card.judged);
    let venue = venue
        .map(|card| format!("Judged on {}. ", card.name))
        .unwrap_or_default();
    let support = |note: &str| parts::support(&format!("{venue}{note}"));
    let figure = match touched {
        Touched::Figure(figure) => Some(figure),
        Touched::Verdict => None,
    };
    let lines = figure
        .and_then(|figure| figure.opens(judged.ask.is_some()))
        .map(|opened| judged.why(opened));
    if let (Some(figure), Some(lines)) = (figure, lines.filter(|lines| !lines.is_empty())) {
        let total = lines.iter().map(|line| line.amount).sum();
        let sent = view.posted.lines(currency).join(" ");
        let note = match figure {
            Figure::LowKeep => "1 in 10 go lower than the low price.",
            Figure::Postage | Figure::Packing if !sent.is_empty() => sent.as_str(),
            Figure::Aside => "Shares of the thing’s own price, from your house rules.",
            _ => "",
        };
        return [
            why_lines(&lines, title_of(figure), total, currency),
            support(note),
        ]
        .into();
    }
    let missing: Vec<El> = view
        .appraisal
        .missing
        .iter()
        .map(|missing| parts::line(missing.sentence()))
        .collect();
    let assumed = view.assumed.iter().map(|said| parts::support(said));
    let assumed: Vec<El> = assumed.collect();
    let heading = (!assumed.is_empty()).then(|| parts::heading("Assumed, since nobody said"));
    let hint = support("Tap any figure on the bar.");
    [
        Nodes::from(missing),
        reasons(&judged.reasons, currency).into(),
        heading.into(),
        assumed.into(),
        hint.into(),
    ]
    .into()
}
