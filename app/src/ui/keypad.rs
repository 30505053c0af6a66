//! The app's own keypad: digits at the left, actions at the right. Nothing on it moves when the screen is covered.

use crate::follow::follow;
use crate::live::{Live, Worked, settled, worked};
use haulwren_core::view::Press;

use super::el::{Do, El, Now, button, div, el, span};
use super::icons::{Icon, sign};
use super::kept::Kept;

/// A key.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Key {
    /// Changes the text that is typed.
    Type(Press),
    /// To the next field.
    Next,
    /// Logs the purchase.
    Buy,
    /// Lays the thing on the pile.
    Pile,
    /// Puts back what lies on the pile: the thing that is being priced, else everything.
    PutBack,
}

const DIGITS: [&str; 10] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"];

impl Key {
    /// Its name on the page.
    fn name(self) -> &'static str {
        match self {
            Self::Type(Press::Digit(digit)) => DIGITS[usize::from(digit.min(9))],
            Self::Type(Press::Point) => ".",
            Self::Type(Press::Half) => ".50",
            Self::Type(Press::RubOut) => "rub",
            Self::Type(Press::Clear) => "clear",
            Self::Next => "next",
            Self::Buy => "buy",
            Self::Pile => "pile",
            Self::PutBack => "back",
        }
    }
}

/// The digits' order, row by row.
const ROWS: [Press; 12] = [
    Press::Digit(1),
    Press::Digit(2),
    Press::Digit(3),
    Press::Digit(4),
    Press::Digit(5),
    Press::Digit(6),
    Press::Digit(7),
    Press::Digit(8),
    Press::Digit(9),
    Press::Point,
    Press::Digit(0),
    Press::Half,
];

/// What the keypad shows.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct KeypadShown {
    /// What the half-unit key types.
    pub half: String,
    /// Whether the currency has decimals.
    pub has_point: bool,
    /// What the Buy key says: the sum, when something can be bought.
    pub sum: Option<String>,
    /// A line under the sum; may be empty.
    pub note: String,
    /// Whether there is something to lay on the pile.
    pub can_pile: bool,
    /// The verdict, whose tone the Buy key has: filled at Buy, plain at Haggle, an outline at Leave.
    pub tone: &'static str,
}

/// The keypad. `covered` says whether the screen is covered: then there is nothing to buy, and a key clears the field instead. `on_key` is
/// called with each key.
pub fn keypad(covered: Live<bool>, shown: Worked<KeypadShown>, on_key: &Do<Key>) -> El {
    let (on_key, digits) = (on_key.clone(), digits(shown, on_key));
    let face = move |class: &str, key: Key| face(class, key, &on_key);
    let pile = face("key side to-pile", Key::Pile)
        .flag("disabled", move || !shown.with(|shown| shown.can_pile))
        .with(sign(Icon::Pile))
        .with("To the pile");
    let actions = move || {
        if covered.get() {
            return vec![
                face("key side clear", Key::Type(Press::Clear))
                    .attr("aria-label", "Clear")
                    .with("C"),
            ];
        }
        let next = face("key side next", Key::Next)
            .with(sign(Icon::Next))
            .with(el("small").with("next"));
        vec![next, buy(face("key buy", Key::Buy), shown)]
    };
    div("keypad of-decide")
        .class_if("is-covered", move || covered.get())
        .attr("role", "group")
        .attr("aria-label", "Keypad")
        .with(digits)
        .with(pile)
        .show(actions)
}

/// What the pile's keypad shows.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct PileKeys {
    /// What every keypad shows; the sum is what is paid for all.
    pub pad: KeypadShown,
    /// How many things the lot would have.
    pub count: usize,
}

/// The keypad of the pile: digits as anywhere; putting back and paying for all, or, while one thing is being priced, putting that one back
/// and being done with it.
pub fn pile_keypad(shown: Worked<PileKeys>, is_pricing: Worked<bool>, on_key: &Do<Key>) -> El {
    let pad = worked(move || shown.with(|shown| shown.pad.clone()));
    let (on_key, digits) = (on_key.clone(), digits(pad, on_key));
    let actions = move || {
        let is_pricing = is_pricing.get();
        let back = if is_pricing {
            "Put it back"
        } else {
            "Put all back"
        };
        let back = face("key side back", Key::PutBack, &on_key).with(back);
        if is_pricing {
            return [
                back,
                face("key side clear", Key::Next, &on_key).with("Done"),
            ];
        }
        let lot = move || match shown.with(|shown| shown.count) {
            0 => "nothing ticked".to_owned(),
            1 => "one thing".to_owned(),
            count => format!("makes a lot of {count}"),
        };
        let pay = sum_key(face("key buy", Key::Buy, &on_key), "Paid for all", pad);
        [back, pay.with(el("small").text_of(lot))]
    };
    div("keypad of-pile")
        .attr("role", "group")
        .attr("aria-label", "Keypad")
        .with(digits)
        .show(actions)
}

/// The keypad of a lot that is sorted later: digits, the next field, and the key that logs it, with a line under its sum.
pub fn lot_keypad(shown: Worked<KeypadShown>, line: Now<String>, on_key: &Do<Key>) -> El {
    let next = face("key side back", Key::Next, on_key)
        .with(sign(Icon::Next))
        .with(el("small").with("next"));
    let pay = sum_key(face("key buy", Key::Buy, on_key), "Bought", shown)
        .with(el("small").text_of(move || line()));
    div("keypad of-pile")
        .attr("role", "group")
        .attr("aria-label", "Keypad")
        .with(digits(shown, on_key))
        .with([next, pay])
}

fn face(class: &str, key: Key, on_key: &Do<Key>) -> El {
    let on_key = on_key.clone();
    button(class)
        .attr("data-key", key.name())
        .on_click(move || on_key(key))
}

/// The digits, and the key that rubs out.
fn digits(shown: Worked<KeypadShown>, on_key: &Do<Key>) -> Vec<El> {
    let half = settled(move || shown.with(|shown| shown.half.clone()));
    let has_point = settled(move || shown.with(|shown| shown.has_point));
    let digit = |press: Press| {
        let button = face("key", Key::Type(press), on_key);
        match press {
            Press::Half => button.text_of(move || half.get()),
            Press::Point => button
                .attr("aria-label", "point")
                .class_if("none", move || !has_point.get())
                .with("."),
            _ => button.with(Key::Type(press).name()),
        }
    };
    let mut keys: Vec<El> = ROWS.map(digit).into();
    let rub = face("key side rub", Key::Type(Press::RubOut), on_key);
    keys.push(rub.attr("aria-label", "Rub out").with(sign(Icon::Rub)));
    keys
}

fn buy(key: El, shown: Worked<KeypadShown>) -> El {
    let note = el("small").text_of(move || shown.with(|shown| shown.note.clone()));
    sum_key(key, "Buy it", shown).with(note)
}

/// A key with a word over the sum; it can't be pressed while there is none.
fn sum_key(key: El, word: &str, shown: Worked<KeypadShown>) -> El {
    let text = span("");
    let (pressed, sum) = (Kept::new(&key), Kept::new(&text));
    follow(Box::new(move || {
        shown.with(|shown| {
            let text = shown.sum.as_deref();
            let is_long = text.is_some_and(|text| text.len() > 7);
            pressed.set("disabled", text.is_none().then_some(""));
            pressed.set("data-verdict-key", Some(shown.tone));
            sum.set("class", Some(if is_long { "sum long" } else { "sum" }));
            sum.set_text(text.unwrap_or_default());
        });
    }));
    key.with(span("word").with(word))
        .with(" ")
        .with(text)
        .with(" ")
}
