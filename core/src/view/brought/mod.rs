//! What a book file brings, in words.

mod weighed;

pub use weighed::{Effect, Move, Weighed};

use crate::exchange::NewOf;
use crate::kind::RecordKind;

/// The kinds that say most of what came, in their order. The others follow in the order in which they are declared.
const FIRST: [RecordKind; 13] = [
    RecordKind::Thing,
    RecordKind::Lot,
    RecordKind::Trip,
    RecordKind::Stop,
    RecordKind::Venue,
    RecordKind::Card,
    RecordKind::Container,
    RecordKind::Kind,
    RecordKind::Passed,
    RecordKind::Photo,
    RecordKind::Cash,
    RecordKind::Work,
    RecordKind::Device,
];

/// Kinds that only come along with others: they are counted together.
const ALONG: [RecordKind; 4] = [
    RecordKind::Book,
    RecordKind::Rules,
    RecordKind::Terms,
    RecordKind::Worked,
];

/// A line for each kind, the most telling first: "12 things".
#[must_use]
pub fn brought(new: &[NewOf]) -> Vec<String> {
    let mut lines = Vec::new();
    let mut others: usize = new.iter().map(|found| found.records).sum();
    let is_rest = |kind: &&RecordKind| !FIRST.contains(kind) && !ALONG.contains(kind);
    for kind in FIRST.iter().chain(RecordKind::ALL.iter().filter(is_rest)) {
        let Some(declared) = kind.declared() else {
            continue;
        };
        if let Some(found) = new.iter().find(|found| found.kind == *kind) {
            let is_one = found.records == 1;
            let word = if is_one {
                declared.one
            } else {
                declared.several
            };
            lines.push(format!("{} {word}", found.records));
            others -= found.records;
        }
    }
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
            kind: RecordKind::from(kind),
            records,
            changes: records * 2,
        };
        let found = brought(&[
            new("book", 1),
            new("lot", 3),
            new("rules", 1),
            new("sermon", 2),
            new("photo", 2),
            new("thing", 1),
        ]);
        assert_eq!(found, ["1 thing", "3 lots", "2 pictures", "4 more"]);
        assert!(brought(&[]).is_empty());
    }
}
