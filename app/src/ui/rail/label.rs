//! The figures on the rail, each a word over an amount. Each is a button that opens the lines behind it.

use std::cell::RefCell;
use std::rc::Rc;

use haulwren_core::appraise;

use super::Touched;
use super::facts::RailFacts;
use super::place::{Figure, Label, Layout, Lean, Row, Wanted, Words};
use crate::ui::el::{Do, El, button, div, el, span};
use crate::ui::kept::Kept;

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
            Self::Costs => "costs",
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
            Self::Costs => appraise::Figure::Costs,
            Self::LowKeep => appraise::Figure::LowKeep,
        })
    }
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

/// One figure's button.
struct Key {
    of: Figure,
    whole: El,
    button: Kept,
    word: Kept,
    amount: Kept,
    rest: Kept,
}

impl Key {
    fn new(of: Figure, on_touch: &Do<Touched>) -> Self {
        // What is asked is typed, not worked out: there are no lines behind it.
        let whole = if of == Figure::Ask {
            span("")
        } else {
            touchable(of, "", on_touch)
        };
        let (word, amount, rest) = (span("w"), el("b"), span("w"));
        let plate = span("plate");
        let plate = if of == Figure::LowKeep {
            amount.set_style("font-size", "inherit");
            plate.with(span("w").with(word.clone()).with(" ").with(amount.clone()))
        } else {
            plate.with(word.clone()).with(" ").with(amount.clone())
        };
        let whole = whole.with(plate.with(" ").with(rest.clone()));
        Self {
            of,
            button: Kept::new(&whole),
            whole,
            word: Kept::new(&word),
            amount: Kept::new(&amount),
            rest: Kept::new(&rest),
        }
    }

    /// `rest` is what the line about the low price says after its amount.
    fn draw(&self, label: Option<&Label>, words: Option<&Words>, rest: &str, is_loss: bool) {
        let shown = label.zip(words);
        self.button.set("hidden", shown.is_none().then_some(""));
        let Some((label, words)) = shown else {
            self.word.set_text("");
            self.amount.set_text("");
            self.rest.set_text("");
            return;
        };
        self.button.set("class", Some(&class_of(label, is_loss)));
        let sides = [
            ("left", label.left),
            ("top", label.top),
            ("width", label.width),
            ("height", label.height),
        ];
        for (side, length) in sides {
            self.button.set_style(side, length);
        }
        self.word.set_text(&words.word);
        self.amount.set_text(&words.amount);
        self.rest.set_text(rest);
        if self.of != Figure::LowKeep {
            self.amount.set_style("font-size", label.size);
        }
    }
}

fn touchable(of: Figure, class: &str, on_touch: &Do<Touched>) -> El {
    let on_touch = Rc::clone(on_touch);
    button(class)
        .attr("data-figure", of.name())
        .on_click(move || on_touch(Touched::Figure(of)))
}

/// A figure of the list under the rail: which, its word, its amount, whether that is a loss.
type Listed = (Figure, String, String, bool);

/// All figures, in the order in which they are read and reached by the keyboard.
const ORDER: [Figure; 11] = [
    Figure::Ceiling,
    Figure::Ask,
    Figure::BuyerPays,
    Figure::Pay,
    Figure::Keep,
    Figure::Aside,
    Figure::Packing,
    Figure::Postage,
    Figure::Cut,
    Figure::Costs,
    Figure::LowKeep,
];

/// The buttons of all figures, and the list of those that found no room.
pub struct Labels {
    keys: [Key; ORDER.len()],
    /// The list under the rail.
    pub list: El,
    /// What stands in it.
    listed: RefCell<Vec<Listed>>,
    on_touch: Do<Touched>,
}

impl Labels {
    /// All of them, not shown yet.
    pub fn new(on_touch: &Do<Touched>) -> Self {
        Self {
            keys: ORDER.map(|of| Key::new(of, on_touch)),
            list: div("rail-list"),
            listed: RefCell::default(),
            on_touch: Rc::clone(on_touch),
        }
    }

    /// The elements.
    pub fn all(&self) -> Vec<El> {
        self.keys.iter().map(|key| key.whole.clone()).collect()
    }

    /// Puts them where the layout has them.
    pub fn draw(&self, layout: &Layout, wanted: &Wanted, facts: &RailFacts) {
        let is_loss = |of| of == Figure::Keep && facts.keep.is_negative();
        for key in &self.keys {
            let label = layout.labels.iter().find(|label| label.of == key.of);
            let rest = match (key.of, &wanted.low) {
                (Figure::LowKeep, Some((_, rest))) => rest,
                _ => "",
            };
            let is_loss = is_loss(key.of);
            key.draw(label, words_of(wanted, key.of), rest, is_loss);
        }
        let words = layout.listed.iter().filter_map(|of| {
            let words = words_of(wanted, *of)?;
            Some((*of, words.word.clone(), words.amount.clone(), is_loss(*of)))
        });
        let listed: Vec<Listed> = words.collect();
        if *self.listed.borrow() != listed {
            self.list
                .set_inside(listed.iter().map(|one| self.row(one)).collect::<Vec<_>>());
            self.listed.replace(listed);
        }
    }

    fn row(&self, (of, word, amount, is_loss): &Listed) -> El {
        let class = if *is_loss {
            "rail-listed loss"
        } else {
            "rail-listed"
        };
        touchable(*of, class, &self.on_touch)
            .with(span("w").with(word.as_str()))
            .with(" ")
            .with(el("b").with(amount.as_str()))
    }
}

fn words_of(wanted: &Wanted, of: Figure) -> Option<&Words> {
    match of {
        Figure::LowKeep => wanted.low.as_ref().map(|(words, _)| words),
        Figure::Ceiling => Some(&wanted.limit),
        Figure::Ask => wanted.asking.as_ref(),
        Figure::BuyerPays => Some(&wanted.buyer),
        _ => wanted.parts.iter().find(|words| words.of == of),
    }
}
