//! Folding: what one record's changes come to. It never looks at another record.

use super::{Change, Fields, Key};
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
    /// Field → the changes between which the trader has to choose, in the order of their stamps. The last is used meanwhile.
    pub disputes: BTreeMap<String, Vec<Key>>,
}

/// The field that takes a record away, in every kind.
pub(crate) const GONE: &str = "gone";

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

    let mut heads: BTreeMap<&str, Vec<&Change>> = BTreeMap::new();
    for change in &changes {
        for field in change.set.keys() {
            let heads = heads.entry(field).or_default();
            heads.retain(|head| !change.knows(head));
            // An honest stamp is greater than all it knows; with a forged one the earlier line may know this one.
            if !heads.iter().any(|head| head.knows(change)) {
                heads.push(change);
            }
        }
    }

    let mut folded = Folded::default();
    for (&field, heads) in &heads {
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
    }
    keep_what_was_edited(
        &mut folded,
        &changes,
        heads.get(GONE).map_or(&[], Vec::as_slice),
    );
    folded
}

/// A removal yields to an edit that it does not know.
fn keep_what_was_edited(folded: &mut Folded, changes: &[&Change], removals: &[&Change]) {
    let removals: Vec<_> = removals
        .iter()
        .filter(|head| head.set[GONE] == Value::Bool(true))
        .collect();
    let edits = changes
        .iter()
        .filter(|change| !change.set.contains_key(GONE));
    let strangers = edits.filter(|edit| {
        removals
            .iter()
            .any(|gone| !gone.knows(edit) && !edit.knows(gone))
    });
    let strangers: Vec<Key> = strangers.map(|edit| edit.key).collect();
    if !strangers.is_empty() {
        let parties = folded
            .disputes
            .entry(GONE.to_owned())
            .or_insert_with(|| removals.iter().map(|gone| gone.key).collect());
        parties.extend(strangers);
    }
    if folded.disputes.contains_key(GONE) {
        folded.values.remove(GONE);
    }
}
