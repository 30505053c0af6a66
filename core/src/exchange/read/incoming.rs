//! What a book file brings: the changes that are new here, and how they come into the book.

use super::{Meeting, ReadError};
use crate::book::{State, Touched};
use crate::change::{Change, Key, RecordKey, Vector, by_record, fold};
use crate::exchange::Header;
use crate::kind::RecordKind;
use crate::stamp::{FAR_AHEAD_MS, Stamp};
use sha2::{Digest, Sha256};

/// A change's line out of a file, checked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Which line of the file, from 1.
    pub line: usize,
    /// Which change.
    pub key: Key,
    /// Its place in the order.
    pub stamp: Stamp,
    /// The record that it speaks of, of whatever kind.
    pub record: RecordKey,
    /// The line, byte for byte, without its end.
    pub text: String,
}

impl Line {
    pub(super) fn new(change: &Change, line: usize, text: &str) -> Self {
        Self {
            line,
            key: change.key,
            stamp: change.stamp,
            record: change.record(),
            text: text.to_owned(),
        }
    }

    /// The change that it is. Read anew each time, since the text takes a fraction of the room.
    ///
    /// # Panics
    /// Never: the line was read before.
    #[must_use]
    pub fn change(&self) -> Change {
        Change::from_line(&self.text).expect("the line was read before")
    }
}

/// How much of one kind is new.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewOf {
    /// The kind, known to this version or not.
    pub kind: RecordKind,
    /// How many records the new changes speak of.
    pub records: usize,
    /// How many new changes there are.
    pub changes: usize,
}

/// The content of a file that was read to its end and found whole. Nothing is in the book yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Incoming {
    /// The first line.
    pub header: Header,
    /// How its book goes with the one here.
    pub meeting: Meeting,
    /// The changes that are new here, in the order of the file.
    pub changes: Vec<Line>,
    /// The same counted, by kind in the order of their names.
    pub new: Vec<NewOf>,
    /// How many changes of the file are known here already. They still have to be held against what is stored: see
    /// [`Incoming::compare`].
    pub already_known: usize,
    /// How far the sender knows each device: to be kept, and given to [`write_changed`](crate::exchange::write_changed) when a file
    /// goes back to it. At least what the file holds, as its header may have been written a moment too early.
    pub sender_has: Vector,
    /// Those changes, by their keys.
    pub(super) known: Vec<Known>,
}

/// A change of the file that is known here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Known {
    pub(super) key: Key,
    pub(super) line: usize,
    pub(super) digest: [u8; 32],
}

impl Known {
    pub(super) fn new(key: Key, line: usize, text: &str) -> Self {
        let digest = Sha256::digest(text).into();
        Self { key, line, digest }
    }
}

impl Incoming {
    /// Holds one stored change against the file, which must not say something else under the same key. To be called for the stored
    /// changes of every device before anything is taken, when any are [known already](Incoming::already_known).
    ///
    /// # Errors
    /// [`ReadError::OtherWords`].
    pub fn compare(&self, stored: Key, text: &str) -> Result<(), ReadError> {
        let found = self.known.binary_search_by_key(&stored, |known| known.key);
        match found.map(|place| &self.known[place]) {
            Ok(known) if Known::new(stored, 0, text).digest != known.digest => {
                Err(ReadError::OtherWords {
                    line: known.line,
                    device: stored.device,
                    seq: stored.seq,
                })
            }
            _ => Ok(()),
        }
    }

    /// How far back the file reaches when it says something else about one of this device's own changes: whether it also has the change before
    /// it, about which both then agree. Only so it is known where two devices of one code parted.
    #[must_use]
    pub fn reaches_before(&self, key: Key) -> bool {
        let before = Key {
            seq: key.seq - 1,
            ..key
        };
        let known = self.known.binary_search_by_key(&before, |known| known.key);
        before.seq == 0 || known.is_ok()
    }

    /// What the sender is called: in the book, or else in the file itself; by its code where neither says.
    ///
    /// # Panics
    /// Never: the lines were read before.
    #[must_use]
    pub fn sender_name(&self, state: &State) -> String {
        let sender = self.header.sender;
        if state.device(sender).is_some() {
            return state.name_of(sender);
        }
        let mut theirs = State::new(sender);
        let of_devices = self
            .changes
            .iter()
            .filter(|line| line.record.kind == RecordKind::Device);
        let lines: Vec<Line> = of_devices.cloned().collect();
        fold_in(&mut theirs, &lines, Vec::new());
        theirs.name_of(sender)
    }

    /// The records that the new changes speak of, in the order of their keys.
    #[must_use]
    pub fn touched(&self) -> Vec<RecordKey> {
        let mut touched = self.records();
        touched.dedup();
        touched
    }

    /// The record of each new change, in the order of their keys.
    fn records(&self) -> Vec<RecordKey> {
        let mut records: Vec<RecordKey> = Vec::with_capacity(self.changes.len());
        for line in &self.changes {
            records.push(line.record.clone());
        }
        records.sort_unstable();
        records
    }

    /// The new change that is stamped furthest ahead, when that is more than a day after this device's clock. It is taken all the
    /// same; the trader is told that one of the clocks is wrong.
    #[must_use]
    pub fn far_ahead(&self, now_ms: u64) -> Option<Key> {
        let last = self.changes.iter().max_by_key(|line| line.stamp)?;
        (last.stamp.ms > now_ms.saturating_add(FAR_AHEAD_MS)).then_some(last.key)
    }

    pub(super) fn count(&mut self) {
        let records = self.records();
        for of_kind in records.chunk_by(|one, next| one.kind == next.kind) {
            self.new.push(NewOf {
                kind: of_kind[0].kind.clone(),
                records: of_kind.chunk_by(|one, next| one == next).count(),
                changes: of_kind.len(),
            });
        }
    }
}

/// Folds new changes into a book: the records that they touch are folded again, from all their changes. `existing` are the changes of
/// those records that the book had before, all of them and in any order; only so is the outcome what folding everything afresh gives.
///
/// The lines may come in portions, as long as the lines of one record come together. Among them may be changes of this very device,
/// which it had lost: then its head moves on too.
pub fn fold_in(state: &mut State, new: &[Line], existing: Vec<Change>) -> Touched {
    let mut changes = existing;
    for line in new {
        state.note(line.key, line.stamp);
        changes.push(line.change());
    }
    let mut touched = Touched::default();
    for of_record in by_record(&changes) {
        let record = of_record[0].record();
        let folded = fold(of_record, |field| record.kind.rule(field));
        touched = touched.and(state.put_folded(&record, folded));
    }
    touched
}
