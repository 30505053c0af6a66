//! The app's own keypad: digits at the left, actions at the right. Nothing on it moves when the screen is covered.

use leptos::prelude::*;

use super::icons::{Icon, Sign};

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

/// The keypad.
#[component]
pub fn Keypad(
    /// Called with each key.
    #[prop(into)]
    on_key: Callback<Key>,
    /// Whether the screen is covered: then there is nothing to buy, and a key clears the field instead.
    #[prop(into)]
    covered: Signal<bool>,
    /// What the half-unit key types.
    #[prop(into)]
    half: Signal<String>,
    /// Whether the currency has decimals.
    #[prop(into)]
    has_point: Signal<bool>,
    /// Whether something can be bought.
    #[prop(into)]
    can_buy: Signal<bool>,
    /// What the Buy key says: the sum, and a line under it.
    #[prop(into)]
    sum: Signal<(String, String)>,
) -> impl IntoView {
    let digit = move |key: Key| {
        let face = match key {
            Key::Half => (move || half.get()).into_any(),
            Key::Point => ".".into_any(),
            key => key.name().into_any(),
        };
        view! {
            <button
                type="button"
                class="key"
                class:none=move || key == Key::Point && !has_point.get()
                data-key=key.name()
                aria-label=(key == Key::Point).then_some("point")
                on:click=move |_| on_key.run(key)
            >
                {face}
            </button>
        }
    };
    let actions = move || {
        if covered.get() {
            view! {
                <button type="button" class="key side clear" data-key="clear" aria-label="Clear" on:click=move |_| on_key.run(Key::Clear)>
                    "C"
                </button>
            }
            .into_any()
        } else {
            view! {
                <button type="button" class="key side next" data-key="next" on:click=move |_| on_key.run(Key::Next)>
                    <Sign icon=Icon::Next />
                    <small>"next"</small>
                </button>
                <button
                    type="button"
                    class="key buy"
                    data-key="buy"
                    disabled=move || !can_buy.get()
                    on:click=move |_| on_key.run(Key::Buy)
                >
                    <span class="word">"Buy it"</span>
                    " "
                    {move || {
                        let (sum, line) = sum.get();
                        let is_long = sum.len() > 7;
                        view! {
                            {(!sum.is_empty()).then(|| view! { <span class="sum" class:long=is_long>{sum}</span> })}
                            " "
                            {(!line.is_empty()).then(|| view! { <small>{line}</small> })}
                        }
                    }}
                </button>
            }
            .into_any()
        }
    };
    view! {
        <div class="keypad" class:is-covered=covered role="group" aria-label="Keypad">
            {ROWS.map(digit).collect_view()}
            <button type="button" class="key side rub" data-key="rub" aria-label="Rub out" on:click=move |_| on_key.run(Key::Rub)>
                <Sign icon=Icon::Rub />
            </button>
            {actions}
        </div>
    }
}
