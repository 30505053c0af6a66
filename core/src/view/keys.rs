//! What a key of the keypad makes of a text: amounts as they are typed, sign by sign.

use super::draft::{Press, half_key};
use crate::money::{Currency, MoneyError, parse};

/// The text after a key. `fresh`: the field has just been stepped into, so that what is typed replaces what stands there. A key that would
/// make the text no amount is not taken.
///
/// # Errors
/// Why the key was not taken, with a sentence.
pub(super) fn pressed(
    before: &str,
    fresh: bool,
    press: Press,
    currency: Currency,
) -> Result<String, MoneyError> {
    let start = if fresh { "" } else { before };
    let after = match press {
        Press::Clear => String::new(),
        Press::RubOut => {
            let mut kept = before.to_owned();
            kept.pop();
            kept
        }
        Press::Digit(digit) => {
            let kept = if start == "0" { "" } else { start };
            format!("{kept}{}", digit.min(9))
        }
        Press::Point if currency.exponent() == 0 => {
            return Err(MoneyError::TooFine { decimals: 0 });
        }
        Press::Point if start.contains('.') => return Err(MoneyError::ManyPoints),
        Press::Point => format!("{}.", if start.is_empty() { "0" } else { start }),
        Press::Half => {
            let whole = start.split('.').next().unwrap_or("");
            let whole = if whole.is_empty() { "0" } else { whole };
            let half = half_key(currency);
            if whole == "0" && !half.starts_with('.') {
                whole.to_owned()
            } else {
                format!("{whole}{half}")
            }
        }
    };
    if !after.is_empty() {
        parse(&after, currency)?;
    }
    Ok(after)
}
