//! The merge once more, from the prose of the format, by brute force: every change against every other, on the bare text of
//! the lines. Nothing here comes from the program's own code.

use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};

/// A change as its line says it.
#[derive(Clone, Debug)]
pub struct Said {
    pub key: String,
    device: String,
    seq: u64,
    stamp: String,
    seen: BTreeMap<String, u64>,
    pub record: String,
    pub set: Map<String, Value>,
}

/// What the changes of one record come to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    pub values: BTreeMap<String, Value>,
    pub disputes: BTreeMap<String, BTreeSet<String>>,
}

impl Said {
    pub fn read(line: &str) -> Self {
        let line: Value = serde_json::from_str(line).unwrap();
        let text = |name: &str| line[name].as_str().unwrap().to_owned();
        let key = text("k");
        let (device, seq) = key.split_once('/').unwrap();
        let seen = line["seen"].as_object().unwrap();
        Self {
            device: device.to_owned(),
            seq: seq.parse().unwrap(),
            stamp: text("stamp"),
            seen: seen
                .iter()
                .map(|(device, seq)| (device.clone(), seq.as_u64().unwrap()))
                .collect(),
            record: format!("{}/{}", text("kind"), text("id")),
            set: line["set"].as_object().unwrap().clone(),
            key,
        }
    }

    /// "Same device and lower seq, or `Y.seq ≤ X.seen[Y.device]`."
    pub fn knows(&self, other: &Self) -> bool {
        if self.device == other.device {
            other.seq < self.seq
        } else {
            self.seen
                .get(&other.device)
                .is_some_and(|seen| other.seq <= *seen)
        }
    }
}

/// Fields of which the later word counts without asking.
fn latest(record: &str, field: &str) -> bool {
    let kind = record.split('/').next().unwrap();
    [
        ("device", "name"),
        ("terms", "checked"),
        ("card", "checked"),
        ("thing", "expected"),
        ("passed", "expected"),
    ]
    .contains(&(kind, field))
}

/// "The changes that set it and that no other change setting it knows", by stamp. Were forged ones to know each other in a
/// circle, the greatest stamp alone.
fn heads<'a>(changes: &[&'a Said], field: &str) -> Vec<&'a Said> {
    let mut setters: Vec<&Said> = changes
        .iter()
        .copied()
        .filter(|change| change.set.contains_key(field))
        .collect();
    setters.sort_by(|one, other| (&one.stamp, one.seq).cmp(&(&other.stamp, other.seq)));
    let is_known = |change: &Said| setters.iter().any(|other| other.knows(change));
    let mut heads: Vec<&Said> = setters
        .iter()
        .copied()
        .filter(|one| !is_known(one))
        .collect();
    if heads.is_empty() {
        heads.extend(setters.last());
    }
    heads
}

/// What the changes of one record come to.
pub fn outcome(changes: &[&Said]) -> Outcome {
    let fields: BTreeSet<&String> = changes.iter().flat_map(|one| one.set.keys()).collect();
    let mut found = Outcome::default();
    for field in fields {
        let heads = heads(changes, field);
        let last = &heads.last().unwrap().set[field];
        let agree = heads.iter().all(|head| head.set[field] == *last);
        if !agree && !latest(&heads[0].record, field) {
            let parties = heads.iter().map(|head| head.key.clone()).collect();
            found.disputes.insert(field.clone(), parties);
        }
        if !last.is_null() {
            found.values.insert(field.clone(), last.clone());
        }
    }
    dispute_removals(&mut found, changes);
    found
}

/// "A removal and an edit that don't know each other are a dispute, and the record stays visible."
fn dispute_removals(found: &mut Outcome, changes: &[&Said]) {
    let heads = heads(changes, "gone");
    for removal in heads.iter().filter(|head| head.set["gone"] == true) {
        let edits = changes.iter().filter(|one| !one.set.contains_key("gone"));
        for edit in edits.filter(|edit| !removal.knows(edit) && !edit.knows(removal)) {
            let parties = found.disputes.entry("gone".to_owned()).or_default();
            parties.extend(heads.iter().map(|head| head.key.clone()));
            parties.insert(edit.key.clone());
        }
    }
    if found.disputes.contains_key("gone") {
        found.values.remove("gone");
    }
}

/// What all changes come to, record by record.
pub fn outcomes(changes: &[Said]) -> BTreeMap<String, Outcome> {
    let mut by_record: BTreeMap<&str, Vec<&Said>> = BTreeMap::new();
    for change in changes {
        by_record.entry(&change.record).or_default().push(change);
    }
    by_record
        .into_iter()
        .map(|(record, changes)| (record.to_owned(), outcome(&changes)))
        .collect()
}

/// A stored record, or what folding gave, in the model's terms.
pub fn stored(json: &str) -> Outcome {
    let json: Value = serde_json::from_str(json).unwrap();
    let none = Map::new();
    let disputes = json.get("disputes").and_then(Value::as_object);
    Outcome {
        values: json["set"]
            .as_object()
            .unwrap()
            .clone()
            .into_iter()
            .collect(),
        disputes: disputes
            .unwrap_or(&none)
            .iter()
            .map(|(field, keys)| {
                let keys = keys.as_array().unwrap().iter();
                let keys = keys.map(|key| key.as_str().unwrap().to_owned());
                (field.clone(), keys.collect())
            })
            .collect(),
    }
}
