//! Folding: what one record's changes come to. It never looks at another record.

use super::{Change, Fields, Key, Vector};
use litemap::LiteMap;
use serde_json::Value;

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
    pub disputes: Disputes,
}

/// Field → the changes between which the trader has to choose.
pub type Disputes = LiteMap<String, Vec<Key>>;

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
    fold_all(changes.into_iter().collect(), &rule)
}

fn fold_all(mut changes: Vec<&Change>, rule: &dyn Fn(&str) -> Rule) -> Folded {
    changes.sort_unstable_by_key(|change| (change.stamp, change.key));
    changes.dedup_by_key(|change| change.key);

    // Field by field, the changes that set it in the order of their stamps.
    let mut said: Vec<(&str, usize)> = Vec::new();
    for (place, change) in changes.iter().enumerate() {
        for field in change.set.keys() {
            said.push((field, place));
        }
    }
    said.sort_unstable();

    let mut folded = Folded::default();
    for of_field in said.chunk_by(|one, next| one.0 == next.0) {
        let field = of_field[0].0;
        let setters: Vec<&Change> = of_field.iter().map(|said| changes[said.1]).collect();
        let heads = heads(&setters);
        let used = &heads[heads.len() - 1].set[field];
        if rule(field) == Rule::Dispute && heads.iter().any(|head| head.set[field] != *used) {
            folded.disputes.insert(
                field.to_owned(),
                heads.iter().map(|head| head.key).collect(),
            );
        }
        if field == GONE {
            keep_what_was_edited(&mut folded, &changes, &heads);
        }
        // A record whose removal is in dispute is there.
        let stays = field == GONE && folded.disputes.contains_key(GONE);
        if !used.is_null() && !stays {
            folded.values.insert(field.to_owned(), used.clone());
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::change::tests::change;
    use serde_json::json;

    const A: &str = "aaaaaaaa";
    const B: &str = "bbbbbbbb";

    /// A change that sets one field; numbers are stamps too.
    fn says(device: &str, seq: u64, seen: &[(&str, u64)], field: &str, value: Value) -> Change {
        let mut change = change(device, seq, seen);
        change.set.insert(field.to_owned(), value);
        change
    }

    /// The value in use, and the parties of the dispute.
    fn check(changes: &[Change], field: &str, value: Value, parties: &[&str]) {
        let rule = |field: &str| {
            if field == "checked" {
                Rule::Latest
            } else {
                Rule::Dispute
            }
        };
        let folded = fold(changes, rule);
        let used = folded.values.get(field).cloned().unwrap_or_default();
        let found = folded.disputes.get(field).cloned().unwrap_or_default();
        let found: Vec<String> = found.iter().map(ToString::to_string).collect();
        assert_eq!(
            (used, found),
            (value, parties.iter().map(|key| (*key).to_owned()).collect())
        );
    }

    const A1: &str = "aaaaaaaa/0000000001";
    const A2: &str = "aaaaaaaa/0000000002";
    const B2: &str = "bbbbbbbb/0000000002";

    #[test]
    fn a_later_word_that_knows_the_earlier_settles_it() {
        let first = says(A, 1, &[], "name", json!("coat"));
        let second = says(B, 2, &[(A, 1)], "name", json!("jacket"));
        check(&[second, first], "name", json!("jacket"), &[]);
    }

    #[test]
    fn words_that_do_not_know_each_other_are_in_dispute_and_the_greater_stamp_is_used() {
        let first = says(A, 1, &[], "name", json!("coat"));
        let second = says(B, 2, &[], "name", json!("jacket"));
        check(
            &[second.clone(), first.clone()],
            "name",
            json!("jacket"),
            &[A1, B2],
        );
        let settled = says(A, 3, &[(B, 2)], "name", json!("coat"));
        check(&[second, first, settled], "name", json!("coat"), &[]);
    }

    #[test]
    fn words_that_agree_are_no_dispute_nor_are_facts_of_which_the_later_counts() {
        let [one, other] = [
            says(A, 1, &[], "name", json!("coat")),
            says(B, 2, &[], "name", json!("coat")),
        ];
        check(&[one, other], "name", json!("coat"), &[]);
        let [one, other] = [
            says(A, 1, &[], "checked", json!(1)),
            says(B, 2, &[], "checked", json!(2)),
        ];
        check(&[one, other], "checked", json!(2), &[]);
    }

    #[test]
    fn clearing_is_a_word_too() {
        let first = says(A, 1, &[], "name", json!("coat"));
        let cleared = says(A, 2, &[], "name", Value::Null);
        check(&[first.clone(), cleared.clone()], "name", Value::Null, &[]);
        let stranger = says(B, 2, &[(A, 1)], "name", json!("jacket"));
        check(
            &[first, cleared, stranger],
            "name",
            json!("jacket"),
            &[A2, B2],
        );
    }

    #[test]
    fn a_removal_yields_to_an_edit_that_it_does_not_know() {
        let made = says(A, 1, &[], "name", json!("coat"));
        let gone = says(A, 2, &[], GONE, json!(true));
        check(&[made.clone(), gone.clone()], GONE, json!(true), &[]);
        let stranger = says(B, 2, &[(A, 1)], "name", json!("jacket"));
        let all = [made.clone(), gone.clone(), stranger.clone()];
        check(&all, GONE, Value::Null, &[A2, B2]);
        check(&all, "name", json!("jacket"), &[]);
        let settled = says(A, 3, &[(B, 2)], GONE, json!(true));
        check(&[made, gone, stranger, settled], GONE, json!(true), &[]);
    }

    #[test]
    fn a_removal_holds_against_an_edit_that_it_knows_or_that_knows_it() {
        let made = says(A, 1, &[], "name", json!("coat"));
        let gone = says(A, 2, &[], GONE, json!(true));
        let after = says(B, 2, &[(A, 2)], "name", json!("jacket"));
        check(&[made, gone, after], GONE, json!(true), &[]);
    }
}
