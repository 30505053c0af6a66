//! Field names and values of records in the trade's words.

use crate::book::Expected;
use crate::json;
use crate::ledger::Paying;
use crate::lot::Method;
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
        ("lot", "extras") => "Extras",
        ("lot", "unsorted") => "Left to sort",
        ("lot", "by") => "Paid in",
        ("lot", "method") => "Shared",
        ("thing", "share") => "Share, by hand",
        ("thing", "kept") => "Kept for yourself",
        ("thing", "pieces") => "Pieces",
        ("thing", "colour") => "Colour",
        ("thing", "label") => "Size on the label",
        ("thing", "maker") => "Maker",
        ("thing", "flaw") => "Flaw",
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
        (_, "gone" | "kept", Value::Bool(true)) => Some("yes".to_owned()),
        (_, "gone" | "kept", _) => Some("no".to_owned()),
        (_, _, Value::Null) => Some("empty".to_owned()),
        ("lot", "method", _) => Method::deserialize(value)
            .ok()
            .map(|method| method.word().to_owned()),
        ("lot", "by", _) => Paying::deserialize(value)
            .ok()
            .map(|by| by.word().to_owned()),
        (_, _, Value::String(text)) => Some(text.clone()),
        (_, "paid" | "postage" | "packing" | "extras" | "share", _) => money(),
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
        ("thing", "lot" | "kind") | ("lot", "bought" | "stop")
    )
}
