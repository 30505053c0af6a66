//! The words on the rail. Each is a button: a figure opens the lines behind it, the flag opens the reasons of the verdict.

use haulwren_core::appraise;
use leptos::prelude::*;

use super::Touched;
use super::facts::RailFacts;
use super::place::{Figure, Label, Layout, Lean, Row, Words};
use crate::ui::el::{El, Nodes, button, div, el, span};
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

/// The words of a figure, and for the low price the second line.
fn words_of(facts: &RailFacts, of: Figure) -> Option<(Words, String)> {
    let wanted = facts.wanted(0.0, 1.0, false);
    let words = match of {
        Figure::LowKeep => return wanted.low,
        Figure::Ceiling => Some(wanted.limit),
        Figure::Ask => wanted.asking,
        Figure::BuyerPays => Some(wanted.buyer),
        _ => wanted.parts.into_iter().find(|words| words.of == of),
    };
    words.map(|words| (words, String::new()))
}

fn class_of(label: &Label, is_loss: bool) -> String {
    let row = match label.row {
        Row::Inside => "in",
        Row::Below => "below",
        Row::Line => "line",
        Row::Above => "above",
    };
    let lean = match label.lean {
        Lean::Left => "left",
        Lean::Right => "right",
        Lean::Middle => "middle",
    };
    let loss = if is_loss { " loss" } else { "" };
    format!(
        "rail-label at-{row} lean-{lean} of-{}{loss}",
        label.of.name()
    )
}

fn px(length: f64) -> String {
    format!("{length:.1}px")
}

/// One label where the layout put it.
pub fn rail_label(
    of: Figure,
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> El {
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
    let is_loss = move || of == Figure::Keep && facts.with(|facts| facts.keep.is_negative());
    let side = move |side: fn(&Label) -> f64| {
        move || at.get().map(|label| px(side(&label))).unwrap_or_default()
    };
    let text = move || -> Nodes {
        let Some((words, rest)) = words.get() else {
            return ().into();
        };
        if of == Figure::LowKeep {
            let first = span("w")
                .with(words.word)
                .with(" ")
                .with(el("b").with(words.amount));
            return [Nodes::from(first), " ".into(), span("w").with(rest).into()].into();
        }
        let amount = el("b")
            .style_of("font-size", side(|label| label.size))
            .with(words.amount);
        [
            Nodes::from(span("w").with(words.word)),
            " ".into(),
            amount.into(),
        ]
        .into()
    };
    // What is asked is typed, not worked out: there are no lines behind it.
    let label = if of == Figure::Ask {
        span("")
    } else {
        button("")
            .attr("data-figure", of.name())
            .on_click(move || on_touch.run(Touched::Figure(of)))
    };
    label
        .attr_of("class", move || {
            at.get().map(|label| class_of(&label, is_loss()))
        })
        .style_of("left", side(|label| label.left))
        .style_of("top", side(|label| label.top))
        .style_of("width", side(|label| label.width))
        .style_of("height", side(|label| label.height))
        .with(span("plate").show(text))
}

/// The words of the verdict over its flag.
pub fn flag_words(
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> El {
    let flag = Memo::new(move |_| layout.with(|l| l.as_ref()?.flag.clone()));
    let verdict = Memo::new(move |_| facts.with(|facts| facts.verdict));
    let rough = Memo::new(move |_| facts.with(|facts| facts.is_rough));
    div("bare").show(move || {
        let (Some(flag), Some(verdict)) = (flag.get(), verdict.get()) else {
            return span("hidden").attr("data-verdict", "none");
        };
        let rough = rough.get().then(|| span("rough").with("rough"));
        let sized = |node: El, size: f64| node.style_of("font-size", move || px(size));
        let word = sized(span("flag-word"), flag.word)
            .with(el("b").with(verdict.word()))
            .with(rough);
        let second = flag.second;
        let lines = flag.lines.iter().flat_map(|line| {
            [
                " ".into(),
                Nodes::from(sized(span("flag-second"), second).with(line.as_str())),
            ]
        });
        let (left, width, height, inset) = (
            flag.left,
            flag.width,
            flag.height,
            flag.text_left - flag.left,
        );
        button(&format!("flag-words tone-{}", name_of(verdict)))
            .attr("data-verdict", name_of(verdict))
            .on_click(move || on_touch.run(Touched::Verdict))
            .style_of("left", move || px(left))
            .style_of("width", move || px(width))
            .style_of("height", move || px(height))
            .style_of("padding-left", move || px(inset))
            .with(word)
            .with(lines.collect::<Vec<_>>())
    })
}

/// The parts that found no room, as a list under the rail.
pub fn listed_parts(
    layout: Memo<Option<Layout>>,
    facts: Signal<RailFacts>,
    on_touch: Callback<Touched>,
) -> El {
    let listed = Memo::new(move |_| {
        layout.with(|l| l.as_ref().map(|l| l.listed.clone()).unwrap_or_default())
    });
    let row = move |of: Figure| {
        let (words, _) = facts.with(|facts| words_of(facts, of))?;
        let is_loss = of == Figure::Keep && facts.with(|facts| facts.keep.is_negative());
        let class = if is_loss {
            "rail-listed loss"
        } else {
            "rail-listed"
        };
        let listed = button(class).attr("data-figure", of.name());
        let listed = listed.on_click(move || on_touch.run(Touched::Figure(of)));
        Some(
            listed
                .with(span("w").with(words.word))
                .with(" ")
                .with(el("b").with(words.amount)),
        )
    };
    div("rail-list").show(move || listed.get().into_iter().filter_map(row).collect::<Vec<_>>())
}
