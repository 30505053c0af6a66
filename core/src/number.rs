//! Numbers as people type them: one reader for amounts, shares and measures. Text is never guessed at. What could mean two things is
//! refused, and every refusal has its sentence.

/// Why a text is not a number that can only mean one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NumberError {
    /// No digit at all.
    #[error("Type a number.")]
    Empty,
    /// Letters or signs among the digits.
    #[error("Numbers only, e.g. 3.50")]
    NotDigits,
    /// More than one point or comma.
    #[error("Use one point only, and no commas between thousands.")]
    ManyPoints,
    /// A minus before the number.
    #[error("This can\u{2019}t be less than nothing.")]
    Negative,
    /// A gap between the digits: "1 000".
    #[error("Leave out the gap: 1000, not 1 000.")]
    Gap,
    /// A comma before three digits: a thousand to some, decimals to others.
    #[error(
        "That could be thousands or decimals. Type 1000 for 1,000, or a point before decimals."
    )]
    TwoWays,
}

/// A number's digits, as typed: those before its point and those behind it. One of both may be empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Number<'a> {
    /// Before the point.
    pub whole: &'a str,
    /// Behind it.
    pub part: &'a str,
}

/// What people put between groups of three digits, beside points and commas.
fn is_gap(sign: char) -> bool {
    sign.is_whitespace() || matches!(sign, '\'' | '\u{2019}' | '_')
}

/// Reads a number: digits with at most one point or comma, never negative. A half-typed `6.` or `.5` is read as far as it goes.
///
/// # Errors
/// What is wrong with it, with the sentence to show.
pub fn read(text: &str) -> Result<Number<'_>, NumberError> {
    let text = text.trim();
    if text.starts_with(['-', '\u{2212}']) {
        return Err(NumberError::Negative);
    }
    let (mut digits, mut points, mut gaps) = (0_u32, 0_u32, 0_u32);
    for sign in text.chars() {
        match sign {
            '0'..='9' => digits = digits.saturating_add(1),
            '.' | ',' => points = points.saturating_add(1),
            gap if is_gap(gap) => gaps = gaps.saturating_add(1),
            _ => return Err(NumberError::NotDigits),
        }
    }
    if digits == 0 {
        return Err(NumberError::Empty);
    }
    if gaps > 0 {
        return Err(NumberError::Gap);
    }
    if points > 1 {
        return Err(NumberError::ManyPoints);
    }
    let number = match text.split_once(['.', ',']) {
        Some((whole, part)) => Number { whole, part },
        None => Number {
            whole: text,
            part: "",
        },
    };
    if text.contains(',') && number.could_be_grouped() {
        return Err(NumberError::TwoWays);
    }
    Ok(number)
}

impl Number<'_> {
    /// Could what stands before the point be thousands, and what stands behind it a group of three digits? "0.250" could not.
    #[must_use]
    pub fn could_be_grouped(self) -> bool {
        (1..=3).contains(&self.whole.len()) && !self.whole.starts_with('0') && self.part.len() == 3
    }

    /// The number with a point, as a library reads it.
    #[must_use]
    pub fn text(self) -> String {
        let whole = if self.whole.is_empty() {
            "0"
        } else {
            self.whole
        };
        if self.part.is_empty() {
            whole.to_owned()
        } else {
            [whole, ".", self.part].concat()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Result<(&str, &str), NumberError>) {
        let found = read(text).map(|number| (number.whole, number.part));
        assert_eq!(found, expected, "{text:?}");
    }

    #[test]
    fn a_number_means_one_thing() {
        check("6", Ok(("6", "")));
        check(" 6,50 ", Ok(("6", "50")));
        check("6.", Ok(("6", "")));
        check(".5", Ok(("", "5")));
        check("0,250", Ok(("0", "250")));
        check("1.250", Ok(("1", "250")));
        check("1234,567", Ok(("1234", "567")));
    }

    /// All that is refused, and by which sentence.
    #[test]
    fn what_could_mean_two_things_is_refused() {
        for (text, refusal) in [
            ("", NumberError::Empty),
            (".", NumberError::Empty),
            ("-6", NumberError::Negative),
            ("\u{2212}6", NumberError::Negative),
            ("1,250", NumberError::TwoWays),
            ("12,000", NumberError::TwoWays),
            ("999,999", NumberError::TwoWays),
            ("1 000", NumberError::Gap),
            ("1\u{a0}000", NumberError::Gap),
            ("1\u{202f}000,50", NumberError::Gap),
            ("1'000", NumberError::Gap),
            ("1\u{2019}000", NumberError::Gap),
            ("1,000.00", NumberError::ManyPoints),
            ("1.000.000", NumberError::ManyPoints),
            ("1,000,000", NumberError::ManyPoints),
            ("$6", NumberError::NotDigits),
            ("six", NumberError::NotDigits),
            ("1e3", NumberError::NotDigits),
            ("\u{0665}", NumberError::NotDigits),
        ] {
            check(text, Err(refusal));
        }
    }

    #[test]
    fn its_text_has_a_point() {
        let text = |typed| read(typed).map(Number::text);
        assert_eq!(text(",5"), Ok("0.5".to_owned()));
        assert_eq!(text("6,"), Ok("6".to_owned()));
        assert_eq!(text("6,50"), Ok("6.50".to_owned()));
    }
}
