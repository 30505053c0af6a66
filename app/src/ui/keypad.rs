//! The app's own keypad: digits at the left, actions at the right. Nothing on it moves when the screen is covered.

use leptos::prelude::*;

use super::el::{El, Nodes, button, div, el, span};
use super::icons::{Icon, sign};

/// A key.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Key {
    /// A digit, 0 to 9.
    Digit(u8),
    /// The point.
    Point,
    /// Half a unit.
    Half,
    /// Takes the last sign away.
    Rub,
    /// Empties the field.
    Clear,
    /// To the next field.
    Next,
    /// Logs the purchase.
    Buy,
}

const DIGITS: [&str; 10] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"];

impl Key {
    /// Its name on the page.
    fn name(self) -> &'static str {
        match self {
            Self::Digit(digit) => DIGITS[usize::from(digit.min(9))],
            Self::Point => ".",
            Self::Half => ".50",
            Self::Rub => "rub",
            Self::Clear => "clear",
            Self::Next => "next",
            Self::Buy => "buy",
        }
    }
}

/// The digits' order, row by row.
const ROWS: [Key; 12] = [
    Key::Digit(1),
    Key::Digit(2),
    Key::Digit(3),
    Key::Digit(4),
    Key::Digit(5),
    Key::Digit(6),
    Key::Digit(7),
    Key::Digit(8),
    Key::Digit(9),
    Key::Point,
    Key::Digit(0),
    Key::Half,
];

/// What the keypad shows.
#[derive(Clone, Copy)]
pub struct KeypadShown {
    /// Whether the screen is covered: then there is nothing to buy, and a key clears the field instead.
    pub covered: Signal<bool>,
    /// What the half-unit key types.
    pub half: Signal<String>,
    /// Whether the currency has decimals.
    pub has_point: Signal<bool>,
    /// Whether something can be bought.
    pub can_buy: Signal<bool>,
    /// What the Buy key says: the sum, and a line under it.
    pub sum: Signal<(String, String)>,
}

/// The keypad. `on_key` is called with each key.
pub fn keypad(shown: KeypadShown, on_key: Callback<Key>) -> El {
    let pressed = move |key: Key| move || on_key.run(key);
    let face = move |class: &str, key: Key| {
        button(class)
            .attr("data-key", key.name())
            .on_click(pressed(key))
    };
    let digit = move |key: Key| {
        let button = face("key", key);
        match key {
            Key::Half => button.text_of(move || shown.half.get()),
            Key::Point => button
                .attr("aria-label", "point")
                .class_if("none", move || !shown.has_point.get())
                .with("."),
            key => button.with(key.name()),
        }
    };
    let actions = move || -> Nodes {
        if shown.covered.get() {
            return face("key side clear", Key::Clear)
                .attr("aria-label", "Clear")
                .with("C")
                .into();
        }
        let next = face("key side next", Key::Next)
            .with(sign(Icon::Next))
            .with(el("small").with("next"));
        let buy = face("key buy", Key::Buy)
            .flag("disabled", move || !shown.can_buy.get())
            .with(span("word").with("Buy it"))
            .with(" ")
            .with(div("bare").show(move || {
                let (sum, line) = shown.sum.get();
                let class = if sum.len() > 7 { "sum long" } else { "sum" };
                let sum = (!sum.is_empty()).then(|| span(class).with(sum));
                let line = (!line.is_empty()).then(|| el("small").with(line));
                [Nodes::from(sum), Nodes::from(" "), Nodes::from(line)]
            }));
        [next, buy].into()
    };
    div("keypad")
        .class_if("is-covered", move || shown.covered.get())
        .attr("role", "group")
        .attr("aria-label", "Keypad")
        .with(ROWS.map(digit))
        .with(
            face("key side rub", Key::Rub)
                .attr("aria-label", "Rub out")
                .with(sign(Icon::Rub)),
        )
        .show(actions)
}
