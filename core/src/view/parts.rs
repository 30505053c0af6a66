//! Field names and values of records in the trade's words.

use crate::book::Expected;
use crate::json;
use crate::money::{Currency, Money, plain};
use crate::worth::Sells;
use serde::Deserialize;
use serde_json::Value;

/// What a field of a kind is called on screen.
pub(super) fn label(kind: &str, field: &str) -> String {
    let known = match (kind, field) {
        (_, "gone") => "Taken out",
        (_, "name") => "Name",
        ("lot", "paid") => "Paid",
        ("lot", "bought") => "Bought",
        ("thing", "sells") => "Sells for",
        (_, "postage") => "Postage",
        (_, "packing") => "Packing",
        ("thing", "expected") => "Verdict",
        ("thing", "lot") => "Lot",
        ("thing", "weight") => "Weight",
        ("thing", "size") => "Size",
        _ => return field.replace('_', " "),
    };
    known.to_owned()
}

/// A value as text. What has no words of its own is shown as it is written.
pub(super) fn value(kind: &str, field: &str, value: &Value, currency: Currency) -> String {
    let money = || {
        Money::deserialize(value)
            .ok()
            .map(|money| plain(money, currency))
    };
    let words = match (kind, field, value) {
        (_, "gone", Value::Bool(true)) => Some("yes".to_owned()),
        (_, "gone", _) => Some("no".to_owned()),
        (_, _, Value::Null) => Some("empty".to_owned()),
        (_, _, Value::String(text)) => Some(text.clone()),
        (_, "paid" | "postage" | "packing", _) => money(),
        ("thing", "sells", _) => Sells::deserialize(value).ok().map(|sells| {
            let [low, likely, high] =
                [sells.low(), sells.likely(), sells.high()].map(|price| plain(price, currency));
            if low == high {
                likely
            } else {
                format!("{likely} (low {low}, high {high})")
            }
        }),
        ("thing", "expected", _) => Expected::deserialize(value).ok().map(|expected| {
            format!(
                "{} at {}, you keep {}",
                expected.verdict.word(),
                plain(expected.ask, currency),
                plain(expected.keep, currency)
            )
        }),
        _ => None,
    };
    words.unwrap_or_else(|| json::text(value))
}

/// Whether a field says something to people; links between records and times do not.
pub(super) fn is_shown(kind: &str, field: &str) -> bool {
    !matches!(
        (kind, field),
        ("thing", "lot" | "kind") | ("lot", "bought" | "method")
    )
}
