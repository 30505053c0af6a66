//! The order in which people expect names with numbers in them: A2 before A10. For bins, zones and places.

use std::cmp::Ordering;

/// Compares two names so that runs of digits count as numbers: A1, A1-2, A1-10, A2, A10, B1. A digit comes before any other
/// sign; large and small letters count alike. Names that only differ in those or in leading zeros are told apart by their
/// signs, so that equal means equal.
pub fn natural_order(left: &str, right: &str) -> Ordering {
    let (mut rest, mut other) = (left, right);
    loop {
        let (one, two) = (first(rest), first(other));
        let order = match (number(one), number(two)) {
            // Without leading zeros the longer number is the greater.
            (Some(a), Some(b)) => a.len().cmp(&b.len()).then_with(|| a.cmp(b)),
            (Some(_), None) if !two.is_empty() => Ordering::Less,
            (None, Some(_)) if !one.is_empty() => Ordering::Greater,
            _ => one
                .chars()
                .map(|sign| sign.to_ascii_lowercase())
                .cmp(two.chars().map(|sign| sign.to_ascii_lowercase())),
        };
        if order != Ordering::Equal {
            return order;
        }
        if one.is_empty() {
            return left.cmp(right);
        }
        rest = &rest[one.len()..];
        other = &other[two.len()..];
    }
}

/// The first run of digits, or the first sign, or nothing at the end.
fn first(text: &str) -> &str {
    let digits = text.len()
        - text
            .trim_start_matches(|sign: char| sign.is_ascii_digit())
            .len();
    let end = if digits > 0 {
        digits
    } else {
        text.chars().next().map_or(0, char::len_utf8)
    };
    &text[..end]
}

/// The digits of a number without leading zeros.
fn number(run: &str) -> Option<&str> {
    run.starts_with(|sign: char| sign.is_ascii_digit())
        .then(|| run.trim_start_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_names_count_as_numbers() {
        let check = |left, right, expected| {
            assert_eq!(natural_order(left, right), expected, "{left} {right}");
            assert_eq!(natural_order(right, left), expected.reverse());
        };
        check("A2", "A10", Ordering::Less);
        check("a2", "A10", Ordering::Less);
        check("A", "A1", Ordering::Less);
        check("A1", "A-1", Ordering::Less);
        check("", "A", Ordering::Less);
        check("", "1", Ordering::Less);
        check("A02", "A2", Ordering::Less);
        check("a", "A", Ordering::Greater);
        check("A1", "A1", Ordering::Equal);
        check(
            "K99999999999999999999999",
            "K100000000000000000000000",
            Ordering::Less,
        );
    }
}
