//! What this device notes of the files that were brought in: how far each import is, and how much each sender has.

use crate::shell::db::{Db, META, Strict};
use crate::shell::fault::Fault;
use haulwren_core::change::Vector;
use haulwren_core::exchange::Incoming;
use haulwren_core::json::{self, Object};
use serde::Deserialize;
use serde_json::Value;

/// How far an import is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Its changes are being laid beside the book: thrown away by a start that finds them.
    Staging,
    /// They are taken, and not all folded in: finished by a start that finds them.
    Folding,
    /// They are in.
    Done,
    /// They are being taken out again: finished by a start that finds them.
    Undoing,
    /// They are not in, and never count again.
    Undone,
}

impl Stage {
    const ALL: [Self; 5] = [
        Self::Staging,
        Self::Folding,
        Self::Done,
        Self::Undoing,
        Self::Undone,
    ];

    const fn word(self) -> &'static str {
        match self {
            Self::Staging => "staging",
            Self::Folding => "folding",
            Self::Done => "done",
            Self::Undoing => "undoing",
            Self::Undone => "undone",
        }
    }
}

/// The imports by their numbers, which are never used again.
#[derive(Debug, Default)]
pub struct Note(Vec<(u64, Stage)>);

impl Note {
    /// Reads it.
    pub async fn read(db: &Db) -> Result<Self, Fault> {
        let Some(text) = db.meta("imports").await? else {
            return Ok(Self::default());
        };
        Self::from_json(&text).ok_or_else(|| Fault::Damaged("imports".to_owned()))
    }

    fn from_json(text: &str) -> Option<Self> {
        let mut note = Self::default();
        for (number, stage) in json::read_object(text).ok()? {
            let is_it = |of: &Stage| stage.as_str() == Some(of.word());
            let stage = Stage::ALL.into_iter().find(is_it)?;
            note.0.push((number.parse().ok()?, stage));
        }
        note.0.sort_unstable_by_key(|(number, _)| *number);
        Some(note)
    }

    fn to_json(&self) -> String {
        let mut object = Object::new();
        for (number, stage) in &self.0 {
            object.insert(number.to_string(), Value::from(stage.word()));
        }
        json::text(&Value::Object(object))
    }

    /// Begins an import, and gives its number.
    pub fn begin(&mut self) -> u64 {
        let number = self.0.last().map_or(1, |(last, _)| last + 1);
        self.0.push((number, Stage::Staging));
        number
    }

    /// The imports at a stage.
    pub fn at(&self, stage: Stage) -> Vec<u64> {
        let at = self.0.iter().filter(|(_, of)| *of == stage);
        at.map(|(number, _)| *number).collect()
    }

    /// Whether no import is under way.
    pub fn is_settled(&self) -> bool {
        let is_over = |stage| matches!(stage, Stage::Done | Stage::Undone);
        self.0.iter().all(|(_, stage)| is_over(*stage))
    }

    /// The last import, and how far it is.
    pub fn last(&self) -> Option<(u64, Stage)> {
        self.0.last().copied()
    }

    /// Notes how far an import is.
    pub fn set(&mut self, number: u64, stage: Stage) {
        for (of, at) in &mut self.0 {
            if *of == number {
                *at = stage;
            }
        }
    }

    /// Puts it with something else.
    pub fn put_in(&self, transaction: &Strict) -> Result<(), Fault> {
        transaction.put(META, &[("k", "imports"), ("v", &self.to_json())])
    }

    /// Writes it.
    pub async fn write(&self, db: &Db) -> Result<(), Fault> {
        let transaction = db.strict(&[META])?;
        self.put_in(&transaction)?;
        transaction.complete().await
    }
}

/// Notes how much the sender of a file has: a file for it need hold no more than what is above that.
pub async fn put_peer(transaction: &Strict, incoming: &Incoming) -> Result<(), Fault> {
    let noted = transaction.get(META, "peers", "v").await?;
    let mut peers = noted
        .map(|text| json::read_object(&text))
        .transpose()
        .map_err(|error| Fault::Damaged(error.to_string()))?
        .unwrap_or_default();
    let sender = incoming.header.sender.to_string();
    // A file may be older than one that was read before.
    let mut has = incoming.sender_has.clone();
    let before = peers.get(&sender).map(Vector::deserialize);
    if let Some(Ok(before)) = before {
        before.iter().for_each(|key| has.note(key));
    }
    peers.insert(sender, json::value(&has));
    let peers = json::text(&Value::Object(peers));
    transaction.put(META, &[("k", "peers"), ("v", &peers)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn imports_are_numbered_on_and_read_back() {
        let mut note = Note::default();
        assert_eq!((note.begin(), note.begin()), (1, 2));
        note.set(1, Stage::Done);
        let text = note.to_json();
        assert_eq!(text, r#"{"1":"done","2":"staging"}"#);
        let mut note = Note::from_json(&text).expect("what was written");
        assert_eq!(note.at(Stage::Staging), [2]);
        assert_eq!(note.begin(), 3);
        assert!(Note::from_json(r#"{"1":"later"}"#).is_none());
    }
}
