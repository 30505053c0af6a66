//! What the trader said, as a log that is only added to: changes, who knew what, and folding them into records.
//!
//! The line that a change is written as ([`Change::line`]) is the format on disk and in files, for ever.

mod fold;
mod key;
mod line;
mod record;
mod vector;

pub use fold::{Disputes, Folded, GONE, Rule, fold};
pub use key::{Key, NotAKey};
pub(crate) use line::read_line;
pub use line::{BadLine, MAX_DEPTH, MAX_LINE};
pub use record::{RecordKey, by_record};
pub use vector::Vector;

use crate::id::DeviceCode;
use crate::json::Object;
use crate::kind::RecordKind;
use crate::stamp::{At, Stamp};
use uuid::Uuid;

/// The fields that a change sets, by name; `null` clears one.
pub type Fields = Object;

/// One change to one record.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Which change: the device and its running number.
    pub key: Key,
    /// First number of the same command: one undo step.
    pub save: u64,
    /// Its place in the order.
    pub stamp: Stamp,
    /// The highest number of each other device that was folded when this was made.
    pub seen: Vector,
    /// What the clock showed.
    pub at: At,
    /// The record's kind.
    pub kind: RecordKind,
    /// The record's id.
    pub id: Uuid,
    /// What it says.
    pub set: Fields,
}

impl Change {
    /// Whether this change was made in knowledge of the other.
    #[must_use]
    pub fn knows(&self, other: &Self) -> bool {
        let other = other.key;
        if self.key.device == other.device {
            other.seq < self.key.seq
        } else {
            other.seq <= self.seen.of(other.device)
        }
    }

    /// The record that it speaks of.
    #[must_use]
    pub fn record(&self) -> RecordKey {
        RecordKey {
            kind: self.kind.clone(),
            id: self.id,
        }
    }

    /// The device that made it.
    #[must_use]
    pub const fn device(&self) -> DeviceCode {
        self.key.device
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A change that sets nothing, stamped with its own number.
    pub(crate) fn change(code: &str, seq: u64, seen: &[(&str, u64)]) -> Change {
        let device: DeviceCode = code.parse().expect("a code");
        let key = |(code, seq): &(&str, u64)| Key {
            device: code.parse().expect("a code"),
            seq: *seq,
        };
        Change {
            key: Key { device, seq },
            save: seq,
            stamp: Stamp {
                ms: seq,
                counter: 0,
                device,
            },
            seen: seen.iter().map(key).collect(),
            at: At(seq, 0),
            kind: RecordKind::Thing,
            id: Uuid::nil(),
            set: Fields::new(),
        }
    }

    #[test]
    fn a_change_knows_what_came_before_it_here_and_what_was_seen_of_others() {
        let here = change("aaaaaaaa", 5, &[("bbbbbbbb", 3)]);
        let check = |code, seq, expected| {
            assert_eq!(
                here.knows(&change(code, seq, &[])),
                expected,
                "{code} {seq}"
            );
        };
        check("aaaaaaaa", 4, true);
        check("aaaaaaaa", 5, false);
        check("aaaaaaaa", 6, false);
        check("bbbbbbbb", 3, true);
        check("bbbbbbbb", 4, false);
        check("cccccccc", 1, false);
    }
}
