//! What a book file brings, in words.

mod weighed;

pub use weighed::{Effect, Move, Weighed};

use crate::exchange::NewOf;

/// Kinds that have a word of their own: one, several.
const WORDS: [(&str, &str, &str); 13] = [
    ("thing", "thing", "things"),
    ("lot", "lot", "lots"),
    ("trip", "trip", "trips"),
    ("stop", "stop", "stops"),
    ("venue", "venue", "venues"),
    ("card", "rate card", "rate cards"),
    ("container", "container", "containers"),
    ("kind", "kind", "kinds"),
    ("passed", "thing passed by", "things passed by"),
    ("photo", "picture", "pictures"),
    ("cash", "movement of the purse", "movements of the purse"),
    ("work", "piece of work", "pieces of work"),
    ("device", "device", "devices"),
];

/// A line for each kind, the most telling first: "12 things". What has no word of its own is counted together.
#[must_use]
pub fn brought(new: &[NewOf]) -> Vec<String> {
    let mut lines = Vec::new();
    for (kind, one, several) in WORDS {
        if let Some(found) = new.iter().find(|found| found.kind == kind) {
            let word = if found.records == 1 { one } else { several };
            lines.push(format!("{} {word}", found.records));
        }
    }
    let has_word = |kind: &str| WORDS.iter().any(|(of, ..)| *of == kind);
    let others = new.iter().filter(|found| !has_word(&found.kind));
    let others: usize = others.map(|found| found.records).sum();
    if others > 0 {
        lines.push(format!("{others} more"));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_counted_in_words() {
        let new = |kind: &str, records| NewOf {
            kind: kind.to_owned(),
            records,
            changes: records * 2,
        };
        let found = brought(&[
            new("book", 1),
            new("lot", 3),
            new("rules", 1),
            new("thing", 1),
        ]);
        assert_eq!(found, ["1 thing", "3 lots", "2 more"]);
        assert!(brought(&[]).is_empty());
    }
}
