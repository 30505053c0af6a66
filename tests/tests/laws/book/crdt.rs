//! The heads of every field held against a library for replicated data: each field is a key of a map, each change a transaction on what its
//! device had seen. What the library keeps as conflicting values of a key must be just the heads of our field.
//!
//! The library knows nothing of stamps, so which value it would show may differ from ours, and is not compared. Nor does it know that two
//! who say the same do not quarrel: it keeps both, we call that settled. Our further rule, that a removal yields to an edit that it does not
//! know, goes beyond single keys; of `gone` only its own heads are compared.

use super::network::{Network, events};
use automerge::transaction::Transactable as _;
use automerge::{ActorId, AutoCommit, ROOT, ReadDoc as _};
use haulwren_core::book::State;
use haulwren_core::change::{Change, GONE, Key, RecordKey, Rule};
use proptest::prelude::*;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// The library's copies of what each device had, and what each of our changes became.
#[derive(Default)]
struct Replayed {
    documents: BTreeMap<String, AutoCommit>,
    made: BTreeMap<Key, automerge::Change>,
    /// What of `made` is in which document.
    known: BTreeMap<String, BTreeMap<String, u64>>,
}

impl Replayed {
    /// Makes a change where its device had seen what it says that it had seen.
    fn say(&mut self, change: &Change) {
        let device = change.key.device.to_string();
        let document = self
            .documents
            .entry(device.clone())
            .or_insert_with(|| AutoCommit::new().with_actor(ActorId::from(device.as_bytes())));
        let known = self.known.entry(device).or_default();
        for seen in change.seen.iter() {
            let last = known.entry(seen.device.to_string()).or_insert(0);
            while *last < seen.seq {
                *last += 1;
                let key = Key { seq: *last, ..seen };
                document.apply_changes([self.made[&key].clone()]).unwrap();
            }
        }
        for field in change.set.keys() {
            // Each word under its own name, so that saying the same again is a word too.
            let word = change.key.to_string();
            document
                .put(ROOT, place(&change.record(), field), word)
                .unwrap();
        }
        document.commit();
        let made = document.get_last_local_change().expect("a change").clone();
        self.made.insert(change.key, made);
    }

    /// All of it in one document.
    fn merged(&self) -> AutoCommit {
        let mut all = AutoCommit::new();
        all.apply_changes(self.made.values().cloned()).unwrap();
        all
    }
}

fn place(record: &RecordKey, field: &str) -> String {
    format!("{record}/{field}")
}

/// The changes whose words the library keeps of a field.
fn kept(document: &AutoCommit, record: &RecordKey, field: &str) -> BTreeSet<Key> {
    let words = document.get_all(ROOT, place(record, field)).unwrap();
    let key = |(word, _): (automerge::Value<'_>, _)| word.as_str().unwrap().parse().unwrap();
    words.into_iter().map(key).collect()
}

proptest! {
    #![proptest_config(crate::tries(24))]

    #[test]
    fn heads_are_what_a_library_for_replicated_data_keeps(events in events(80)) {
        let mut network = Network::of(4);
        network.play(&events)?;
        network.settle()?;
        let device = &network.peers[0].device;
        let mut log = device.log.clone();
        // Whoever knows a change has a greater stamp.
        log.sort_unstable_by_key(|change| change.stamp);
        let mut replayed = Replayed::default();
        for change in &log {
            replayed.say(change);
        }
        let merged = replayed.merged();
        let said: BTreeMap<Key, &Change> = log.iter().map(|change| (change.key, change)).collect();
        for record in device.records() {
            let of_record = device.changes_to(&record);
            let fields: BTreeSet<&String> = of_record.iter().flat_map(|change| change.set.keys()).collect();
            for field in fields {
                let heads = kept(&merged, &record, field);
                prop_assert!(!heads.is_empty());
                is_ours(&device.state, &record, field, &heads, &said)?;
            }
        }
    }
}

/// Holds the heads of a field against what the book makes of it.
fn is_ours(
    state: &State,
    record: &RecordKey,
    field: &str,
    heads: &BTreeSet<Key>,
    said: &BTreeMap<Key, &Change>,
) -> Result<(), TestCaseError> {
    let words: Vec<&Value> = heads.iter().map(|key| &said[key].set[field]).collect();
    let agree = words.iter().all(|word| *word == words[0]);
    let ours: Option<BTreeSet<Key>> = state
        .parties(record, field)
        .map(|keys| keys.iter().copied().collect());
    if field == GONE {
        let all = ours.unwrap_or_default();
        prop_assert!(agree && all.is_empty() || heads.is_subset(&all));
        return Ok(());
    }
    let is_asked = !agree && record.kind.rule(field) == Rule::Dispute;
    prop_assert_eq!(ours, is_asked.then(|| heads.clone()));
    let fields = state.fields_of(record);
    let used = fields.get(field).unwrap_or(&Value::Null);
    prop_assert!(
        words.contains(&used),
        "{} of {}: {} of {:?}",
        field,
        record,
        used,
        words
    );
    Ok(())
}
