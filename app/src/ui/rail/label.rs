//! The words on the rail. Each is a button: a figure opens the lines behind it, the flag opens the reasons of the verdict.

use haulwren_core::appraise;
use leptos::prelude::*;

use super::Touched;
use super::facts::RailFacts;
use super::place::{Figure, Label, Layout, Lean, Row, Words};
use crate::ui::verdict::name as name_of;

impl Figure {
    /// The name by which the page and its tests know the figure.
    pub fn name(self) -> &'static str {
        match self {
            Self::Ceiling => "ceiling",
            Self::Ask => "ask",
            Self::BuyerPays => "buyer-pays",
            Self::Pay => "pay",
            Self::Keep => "keep",
            Self::Aside => "aside",
            Self::Packing => "packing",
            Self::Postage => "postage",
            Self::Cut => "cut",
            Self::LowKeep => "low-keep",
        }
    }

    /// The figure of the appraisal whose lines stand behind this one; none behind what was typed.
    pub fn opens(self, has_ask: bool) -> Option<appraise::Figure> {
        Some(match self {
            Self::Ask => return None,
            Self::Ceiling => appraise::Figure::Ceiling,
            Self::BuyerPays => appraise::Figure::BuyerPays,
            Self::Pay => appraise::Figure::YouPay,
            Self::Keep if has_ask => appraise::Figure::Keep,
            Self::Keep => appraise::Figure::BeforePurchase,
            Self::Aside => appraise::Figure::SetAside,
            Self::Packing => appraise::Figure::Packing,
            Self::Postage => appraise::Figure::Postage,
            Self::Cut => appraise::Figure::Cut,
            Self::LowKeep => appraise::Figure::LowKeep,
        })
    }
}

fn words_of(facts: &RailFacts, of: Figure) -> Option<Words> {
    let wanted = facts.wanted(0.0, 1.0, false);
    match of {
        Figure::Ceiling => Some(wanted.limit),
        Figure::Ask => wanted.asking,
        Figure::BuyerPays => Some(wanted.buyer),
        Figure::LowKeep => wanted.low.map(|(words, _)| words),
        _ => wanted.parts.into_iter().find(|words| words.of == of),
    }
}

/// One label where the layout put it.
#[component]
pub fn RailLabel(
    of: Figure,
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> impl IntoView {
    let at = Memo::new(move |_| {
        layout.with(|l| {
            l.as_ref()?
                .labels
                .iter()
                .find(|label| label.of == of)
                .copied()
        })
    });
    let words = Memo::new(move |_| facts.with(|facts| words_of(facts, of)));
    let px = move |side: fn(&Label) -> f64| {
        move || at.get().map(|label| format!("{:.1}px", side(&label)))
    };
    let class = move || {
        let label = at.get();
        let row = match label.map(|label| label.row) {
            Some(Row::Inside) => "in",
            Some(Row::Below) => "below",
            Some(Row::Line) => "line",
            _ => "above",
        };
        let lean = match label.map(|label| label.lean) {
            Some(Lean::Left) => "left",
            Some(Lean::Right) => "right",
            _ => "middle",
        };
        let is_loss = of == Figure::Keep && facts.with(|facts| facts.keep.is_negative());
        let loss = if is_loss { " loss" } else { "" };
        format!("rail-label at-{row} lean-{lean} of-{}{loss}", of.name())
    };
    let text = move || {
        words.get().map(|words| {
            if of == Figure::LowKeep {
                let rest = facts.with(|facts| facts.wanted(0.0, 1.0, false).low.map(|low| low.1));
                view! {
                    <span class="w">{words.word} " " <b>{words.amount}</b></span>
                    " "
                    <span class="w">{rest}</span>
                }
                .into_any()
            } else {
                view! {
                    <span class="w">{words.word}</span>
                    " "
                    <b style:font-size=px(|label| label.size)>{words.amount}</b>
                }
                .into_any()
            }
        })
    };
    let inner = view! { <span class="plate">{text}</span> };
    if of == Figure::Ask {
        // Typed, not worked out: there are no lines behind it.
        return view! {
            <span class=class style:left=px(|l| l.left) style:top=px(|l| l.top) style:width=px(|l| l.width)
                style:height=px(|l| l.height)>{inner}</span>
        }
        .into_any();
    }
    view! {
        <button
            type="button"
            class=class
            data-figure=of.name()
            style:left=px(|l| l.left)
            style:top=px(|l| l.top)
            style:width=px(|l| l.width)
            style:height=px(|l| l.height)
            on:click=move |_| on_touch.run(Touched::Figure(of))
        >
            {inner}
        </button>
    }
    .into_any()
}

/// The words of the verdict over its flag.
#[component]
pub fn FlagWords(
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> impl IntoView {
    let flag = Memo::new(move |_| layout.with(|l| l.as_ref()?.flag.clone()));
    let verdict = Memo::new(move |_| facts.with(|facts| facts.verdict));
    let body = move || {
        let (Some(flag), Some(verdict)) = (flag.get(), verdict.get()) else {
            return view! { <span class="hidden" data-verdict="none"></span> }.into_any();
        };
        let rough = facts
            .with(|facts| facts.is_rough)
            .then(|| view! { <span class="rough">"rough"</span> });
        let lines = flag.lines.clone();
        view! {
            <button
                type="button"
                class=format!("flag-words tone-{}", name_of(verdict))
                data-verdict=name_of(verdict)
                style:left=format!("{:.1}px", flag.left)
                style:width=format!("{:.1}px", flag.width)
                style:height=format!("{:.1}px", flag.height)
                style:padding-left=format!("{:.1}px", flag.text_left - flag.left)
                on:click=move |_| on_touch.run(Touched::Verdict)
            >
                <span class="flag-word" style:font-size=format!("{:.1}px", flag.word)>
                    <b>{verdict.word()}</b>
                    {rough}
                </span>
                {lines
                    .into_iter()
                    .map(|line| {
                        let size = format!("{:.1}px", flag.second);
                        view! { " "<span class="flag-second" style:font-size=size>{line}</span> }
                    })
                    .collect_view()}
            </button>
        }
        .into_any()
    };
    view! { {body} }
}

/// The parts that found no room, as a list under the rail.
#[component]
pub fn ListedParts(
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> impl IntoView {
    let listed = move || layout.with(|l| l.as_ref().map(|l| l.listed.clone()).unwrap_or_default());
    let row = move |of: Figure| {
        let words = facts.with(|facts| words_of(facts, of))?;
        let is_loss = of == Figure::Keep && facts.with(|facts| facts.keep.is_negative());
        Some(view! {
            <button
                type="button"
                class="rail-listed"
                class:loss=is_loss
                data-figure=of.name()
                on:click=move |_| on_touch.run(Touched::Figure(of))
            >
                <span class="w">{words.word}</span>
                " "
                <b>{words.amount}</b>
            </button>
        })
    };
    view! { <div class="rail-list">{move || listed().into_iter().map(row).collect_view()}</div> }
}
