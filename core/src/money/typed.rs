//! Amounts as people type them, and the plain text that gives the same amount back.

use super::{Currency, Money, MoneyError};
use crate::number;

/// An amount as typed on a keypad: a [number](crate::number) that is no finer than the currency. A half-typed `6.` or `.5` is read as far
/// as it goes. Text is never guessed at: `1,000` is refused, rather than read as a thousand or as one.
///
/// # Errors
/// What is wrong with it, with the sentence to show.
pub fn parse(text: &str, currency: Currency) -> Result<Money, MoneyError> {
    let number = number::read(text)?;
    let exponent = usize::from(currency.exponent());
    if number.part.len() > exponent {
        return Err(MoneyError::TooFine {
            decimals: currency.exponent(),
        });
    }
    let mut minor: i64 = 0;
    let digits = number.whole.bytes().chain(number.part.bytes());
    let missing = exponent - number.part.len();
    for digit in digits.chain(core::iter::repeat_n(b'0', missing)) {
        minor = minor * 10 + i64::from(digit - b'0');
        if minor > Money::TYPED_MAX.minor() {
            return Err(MoneyError::TooLarge);
        }
    }
    Money::from_minor(minor)
}

/// The amount as plain text with the currency's decimals, no grouping and no sign of the currency: `6.00`. A loss has a
/// true minus (U+2212). [`parse`] reads every non-negative one back.
pub fn plain(money: Money, currency: Currency) -> String {
    let sign = if money.is_negative() { "\u{2212}" } else { "" };
    let minor = money.minor().unsigned_abs();
    let unit = currency.unit().minor().unsigned_abs();
    let (whole, part) = (minor / unit, minor % unit);
    match usize::from(currency.exponent()) {
        0 => format!("{sign}{whole}"),
        width => format!("{sign}{whole}.{part:0width$}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, code: &str, expected: Result<i64, MoneyError>) {
        let currency = Currency::from_code(code).unwrap();
        let found = parse(text, currency).map(Money::minor);
        assert_eq!(found, expected, "{text:?} {code}");
    }

    #[test]
    fn typed_amounts_are_read_or_refused_with_a_reason() {
        let fine = |decimals| Err(MoneyError::TooFine { decimals });
        check("6", "USD", Ok(600));
        check("6.", "USD", Ok(600));
        check(".5", "USD", Ok(50));
        check("6,50", "USD", Ok(650));
        check(" 006.05 ", "USD", Ok(605));
        check("1,000", "USD", Err(MoneyError::TwoWays));
        check("1.000", "USD", fine(2));
        check("1,000", "KWD", Err(MoneyError::TwoWays));
        check("1.000", "KWD", Ok(1000));
        check("6.5", "JPY", fine(0));
        check("6.", "JPY", Ok(6));
        check("", "USD", Err(MoneyError::Empty));
        check(".", "USD", Err(MoneyError::Empty));
        check("-6", "USD", Err(MoneyError::Negative));
        check("\u{2212}6", "USD", Err(MoneyError::Negative));
        check("6.0.0", "USD", Err(MoneyError::ManyPoints));
        check("1,000.00", "USD", Err(MoneyError::ManyPoints));
        check("six", "USD", Err(MoneyError::NotDigits));
        check("$6", "USD", Err(MoneyError::NotDigits));
        check("6 5", "USD", Err(MoneyError::Gap));
        check("1 000", "USD", Err(MoneyError::Gap));
        check("1e3", "USD", Err(MoneyError::NotDigits));
        check("\u{0665}", "USD", Err(MoneyError::NotDigits));
        check("100000000", "USD", Ok(10_000_000_000));
        check("100000000.01", "USD", Err(MoneyError::TooLarge));
        check("1000000000000000000", "USD", Err(MoneyError::TooLarge));
        check(&"9".repeat(400), "USD", Err(MoneyError::TooLarge));
    }

    #[test]
    fn plain_text_has_the_currencys_decimals_and_a_true_minus() {
        let show = |minor, code| plain(Money::new(minor), Currency::from_code(code).unwrap());
        assert_eq!(show(600, "USD"), "6.00");
        assert_eq!(show(5, "USD"), "0.05");
        assert_eq!(show(-410, "USD"), "\u{2212}4.10");
        assert_eq!(show(-5, "USD"), "\u{2212}0.05");
        assert_eq!(show(600, "JPY"), "600");
        assert_eq!(show(1500, "KWD"), "1.500");
        assert_eq!(show(15, "CLF"), "0.0015");
    }

    #[test]
    fn every_refusal_is_a_sentence() {
        let said = |error: MoneyError| error.to_string();
        assert_eq!(
            said(MoneyError::TooFine { decimals: 2 }),
            "Use at most 2 decimals."
        );
        assert_eq!(
            said(MoneyError::TooFine { decimals: 0 }),
            "This currency has whole amounts only."
        );
        assert_eq!(
            said(MoneyError::Negative),
            "This can\u{2019}t be less than nothing."
        );
    }
}
