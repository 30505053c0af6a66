//! Folding: what one record's changes come to. It never looks at another record.

use super::{Change, Fields, Key, Vector};
use serde_json::Value;
use std::collections::BTreeMap;

/// What happens to two values that were set without knowledge of each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Both are kept until the trader settles it.
    Dispute,
    /// The later one is used, and nobody is asked: for facts such as "last checked".
    Latest,
}

/// A record as its changes leave it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Folded {
    /// Field → value. A cleared field is left out.
    pub values: Fields,
    /// Field → the changes between which the trader has to choose, in the order of their stamps. Meanwhile the last is used; of
    /// `gone`, that the record is there.
    pub disputes: BTreeMap<String, Vec<Key>>,
}

/// The field that takes a record away, in every kind.
pub const GONE: &str = "gone";

/// Folds the changes of one record, in whatever order they come.
///
/// A field's heads are the changes that set it and that no other change setting it knows. With one head, or heads that agree, the
/// field is settled. Else the greatest stamp is used meanwhile. A removal and an edit that do not know each other are a dispute
/// of the field `gone`, and the record stays.
pub fn fold<'a>(
    changes: impl IntoIterator<Item = &'a Change>,
    rule: impl Fn(&str) -> Rule,
) -> Folded {
    let mut changes: Vec<&Change> = changes.into_iter().collect();
    changes.sort_by_key(|change| (change.stamp, change.key));
    changes.dedup_by_key(|change| change.key);

    let mut setters: BTreeMap<&str, Vec<&Change>> = BTreeMap::new();
    for change in &changes {
        for field in change.set.keys() {
            setters.entry(field).or_default().push(change);
        }
    }

    let mut folded = Folded::default();
    for (&field, setters) in &setters {
        let heads = heads(setters);
        let used = &heads[heads.len() - 1].set[field];
        if rule(field) == Rule::Dispute && heads.iter().any(|head| head.set[field] != *used) {
            folded.disputes.insert(
                field.to_owned(),
                heads.iter().map(|head| head.key).collect(),
            );
        }
        if !used.is_null() {
            folded.values.insert(field.to_owned(), used.clone());
        }
        if field == GONE {
            keep_what_was_edited(&mut folded, &changes, &heads);
        }
    }
    if folded.disputes.contains_key(GONE) {
        folded.values.remove(GONE);
    }
    folded
}

/// Those that no other of them knows, in the order in which they come; never none.
fn heads<'a>(setters: &[&'a Change]) -> Vec<&'a Change> {
    // What they know together: of other devices what they have seen, of their own what came before them.
    let mut known = Vector::default();
    for change in setters {
        let (device, seq) = (change.key.device, change.key.seq);
        let others = change.seen.iter().filter(|seen| seen.device != device);
        others.for_each(|seen| known.note(seen));
        known.note(Key {
            device,
            seq: seq.saturating_sub(1),
        });
    }
    let unknown = |change: &&&Change| change.key.seq > known.of(change.key.device);
    let heads: Vec<&Change> = setters.iter().filter(unknown).copied().collect();
    if heads.is_empty() {
        // Only forged changes know each other in a circle. The last word counts, so that there is one.
        setters[setters.len() - 1..].to_vec()
    } else {
        heads
    }
}

/// A removal yields to an edit that it does not know. `heads` are those of the field `gone`.
fn keep_what_was_edited(folded: &mut Folded, changes: &[&Change], heads: &[&Change]) {
    let removals: Vec<_> = heads
        .iter()
        .filter(|head| head.set[GONE] == Value::Bool(true))
        .collect();
    let is_stranger = |edit: &Change| {
        !edit.set.contains_key(GONE)
            && removals
                .iter()
                .any(|gone| !gone.knows(edit) && !edit.knows(gone))
    };
    if changes.iter().any(|change| is_stranger(change)) {
        let is_party = |change: &&&Change| {
            is_stranger(change) || heads.iter().any(|head| head.key == change.key)
        };
        let parties = changes.iter().filter(is_party).map(|change| change.key);
        folded.disputes.insert(GONE.to_owned(), parties.collect());
    }
}
