//! Times of day as people type and read them.

use crate::stamp::At;

/// Minutes after midnight of a time: `7:52`, `07.52`, `752`, `7`.
#[must_use]
pub fn minutes_of(text: &str) -> Option<u16> {
    let text = text.trim();
    let (hours, minutes) = match text.split_once([':', '.', 'h']) {
        Some((hours, minutes)) => (hours, if minutes.is_empty() { "0" } else { minutes }),
        None if text.len() > 2 => text.split_at_checked(text.len() - 2)?,
        None => (text, "0"),
    };
    let is_number = |text: &str| {
        (1..=2).contains(&text.len()) && text.bytes().all(|sign| sign.is_ascii_digit())
    };
    if !is_number(hours) || !is_number(minutes) {
        return None;
    }
    let (hours, minutes): (u16, u16) = (hours.parse().ok()?, minutes.parse().ok()?);
    (hours < 24 && minutes < 60).then_some(hours * 60 + minutes)
}

/// Day and time that the device's clock showed; a time beyond the calendar as it is written.
pub(super) fn time(at: At) -> String {
    let minutes = at.minute_of_day();
    let day = at
        .day()
        .map_or_else(|| at.0.to_string(), |day| day.to_string());
    format!("{day}, {}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::minutes_of;

    #[test]
    fn times_are_read_as_people_type_them() {
        for (text, minutes) in [
            ("7:52", Some(472)),
            ("07.52", Some(472)),
            ("752", Some(472)),
            ("1305", Some(785)),
            ("7", Some(420)),
            ("7h", Some(420)),
            ("0:00", Some(0)),
            ("23:59", Some(1_439)),
            ("24:00", None),
            ("7:60", None),
            ("", None),
            ("noon", None),
            ("7:5x", None),
            ("é52", None),
            ("123456", None),
        ] {
            assert_eq!(minutes_of(text), minutes, "{text}");
        }
    }
}
