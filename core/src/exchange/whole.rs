//! The part of a damaged book that a file can hold.

use crate::change::{Change, Vector};
use crate::id::DeviceCode;
use litemap::LiteMap;

/// Leaves out what no reader of a book file takes: of each device what comes after a change that is missing, and what rests on a change
/// that is left out. The rest comes in the order of its keys.
#[must_use]
pub fn without_holes(mut changes: Vec<Change>) -> Vec<Change> {
    changes.sort_unstable_by_key(|change| change.key);
    changes.dedup_by_key(|change| change.key);
    // How far each device's changes go for now; each round can only bring one of them down.
    let mut reach: LiteMap<DeviceCode, u64> = LiteMap::new();
    for change in &changes {
        let last = reach.entry(change.key.device).or_insert(0);
        if change.key.seq == *last + 1 {
            *last += 1;
        }
    }
    loop {
        let within = |seen: &Vector, reach: &LiteMap<DeviceCode, u64>| {
            seen.iter()
                .all(|key| key.seq <= reach.get(&key.device).copied().unwrap_or(0))
        };
        let first = changes.iter().find(|change| {
            let last = reach.get(&change.key.device).copied().unwrap_or(0);
            change.key.seq <= last && !within(&change.seen, &reach)
        });
        let Some(first) = first else { break };
        reach.insert(first.key.device, first.key.seq - 1);
    }
    changes.retain(|change| change.key.seq <= reach.get(&change.key.device).copied().unwrap_or(0));
    changes
}

#[cfg(test)]
mod tests {
    use super::without_holes;
    use crate::change::tests::change;

    /// Device, number, and what was seen of others.
    type Told<'a> = (&'a str, u64, &'a [(&'a str, u64)]);

    fn check(changes: &[Told<'_>], left: &[&str]) {
        let changes = changes.iter();
        let changes = changes.map(|(device, seq, seen)| change(device, *seq, seen));
        let kept = without_holes(changes.collect());
        let kept: Vec<String> = kept.iter().map(|change| change.key.to_string()).collect();
        let left: Vec<String> = left
            .iter()
            .map(|key| {
                let (device, seq) = key.split_once('/').expect("a key");
                format!("{device}/{seq:0>10}")
            })
            .collect();
        assert_eq!(kept, left);
    }

    const A: &str = "aaaaaaaa";
    const B: &str = "bbbbbbbb";

    #[test]
    fn a_whole_book_stays_whole() {
        check(
            &[(B, 1, &[(A, 1)]), (A, 2, &[]), (A, 1, &[])],
            &["aaaaaaaa/1", "aaaaaaaa/2", "bbbbbbbb/1"],
        );
    }

    #[test]
    fn what_comes_after_a_hole_goes_and_what_rests_on_it() {
        check(
            &[
                (A, 1, &[]),
                (A, 3, &[]),
                (B, 1, &[(A, 1)]),
                (B, 2, &[(A, 3)]),
                (B, 3, &[]),
            ],
            &["aaaaaaaa/1", "bbbbbbbb/1"],
        );
    }

    #[test]
    fn one_that_goes_takes_others_along() {
        check(
            &[(A, 2, &[]), (B, 1, &[(A, 2)]), ("cccccccc", 1, &[(B, 1)])],
            &[],
        );
    }
}
