//! A record's key in storage.

use super::Change;
use crate::kind::RecordKind;
use core::fmt;
use core::str::FromStr;
use uuid::Uuid;

/// Which record: its text is `kind/uuid`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RecordKey {
    /// What kind of record it is, whether this version knows it or not.
    pub kind: RecordKind,
    /// The record's id.
    pub id: Uuid,
}

/// A text that is no record key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a record's key is a kind, a stroke and a UUID")]
pub struct NotARecordKey;

impl fmt::Display for RecordKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.kind, self.id)
    }
}

impl FromStr for RecordKey {
    type Err = NotARecordKey;
    fn from_str(text: &str) -> Result<Self, NotARecordKey> {
        // From the right: no kind of ours has a stroke in its name, but a foreign one may.
        let (kind, id) = text.rsplit_once('/').ok_or(NotARecordKey)?;
        let id = Uuid::parse_str(id).map_err(|_| NotARecordKey)?;
        Ok(Self {
            kind: RecordKind::from(kind),
            id,
        })
    }
}

/// The changes of each record together, records in the order of their keys.
#[must_use]
pub fn by_record(changes: &[Change]) -> Vec<Vec<&Change>> {
    let mut sorted: Vec<&Change> = changes.iter().collect();
    sorted.sort_unstable_by(|one, other| (&one.kind, one.id).cmp(&(&other.kind, other.id)));
    let of_one = |one: &&Change, next: &&Change| one.id == next.id && one.kind == next.kind;
    sorted.chunk_by(of_one).map(<[&Change]>::to_vec).collect()
}
