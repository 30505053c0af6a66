//! Two devices of one code, since one was set up from a copy of the other, and both went on: from some number on, each says something else
//! under the same keys. The one that notices takes a new code, and what it said alone is issued anew under that: then both can exchange.

use crate::change::{Change, Key};
use crate::id::DeviceCode;

/// Issues own changes after a number anew under another code, as if they had been said there: on top of all that both say the same.
///
/// They say what they said, at the same time, in the same order among all others; what was one save stays one. `own` are changes of one
/// device, in the order of their numbers.
#[must_use]
pub fn issued_anew(own: &[Change], after: u64, code: DeviceCode) -> Vec<Change> {
    let later = own.iter().filter(|change| change.key.seq > after);
    let anew = |change: &Change| {
        let Key { device, seq } = change.key;
        let mut anew = change.clone();
        anew.key = Key {
            device: code,
            seq: seq - after,
        };
        // A save is copied whole or not at all.
        anew.save = change.save.saturating_sub(after).max(1);
        anew.stamp.device = code;
        anew.seen.note(Key { device, seq: after });
        anew
    };
    later.map(anew).collect()
}

/// Whether a change of somebody else rests on changes of a device after a number: those can't be issued anew without taking the ground from
/// under it.
#[must_use]
pub fn rests_on(change: &Change, device: DeviceCode, after: u64) -> bool {
    change.key.device != device && change.seen.of(device) > after
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::change::tests::change;

    #[test]
    fn what_was_said_after_the_point_is_said_anew_on_top_of_it() {
        let own: Vec<Change> = (1..=5)
            .map(|seq| change("aaaaaaaa", seq, &[("bbbbbbbb", seq)]))
            .collect();
        let code = "cccccccc".parse().expect("a code");
        let anew = issued_anew(&own, 3, code);
        let keys: Vec<String> = anew.iter().map(|one| one.key.to_string()).collect();
        assert_eq!(keys, ["cccccccc/0000000001", "cccccccc/0000000002"]);
        for (one, was) in anew.iter().zip(&own[3..]) {
            assert_eq!(one.seen.of(was.key.device), 3);
            assert_eq!(
                one.seen.of("bbbbbbbb".parse().expect("a code")),
                was.key.seq
            );
            assert_eq!(
                (one.at, &one.set, one.stamp.ms),
                (was.at, &was.set, was.stamp.ms)
            );
            assert!(Change::from_line(&one.line()).is_ok(), "{}", one.line());
        }
    }

    #[test]
    fn others_may_rest_on_them() {
        let a = "aaaaaaaa".parse().expect("a code");
        let check = |code, seen: &[(&str, u64)], expected| {
            assert_eq!(rests_on(&change(code, 9, seen), a, 3), expected);
        };
        check("bbbbbbbb", &[("aaaaaaaa", 4)], true);
        check("bbbbbbbb", &[("aaaaaaaa", 3)], false);
        check("bbbbbbbb", &[], false);
        check("aaaaaaaa", &[], false);
    }
}
