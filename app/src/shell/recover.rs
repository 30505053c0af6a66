//! A stored book that does not read back: what can be mended is mended from its history and its second copy; what can't is named.

use super::clock;
use super::db::{CHANGES, Db, META, Strict, text};
use super::fault::Fault;
use super::lock;
use super::save::{Head, put_change};
use super::second::Second;
use haulwren_core::book::State;
use haulwren_core::change::{Change, Vector};
use haulwren_core::id::DeviceCode;
use haulwren_core::json::{self, Object};
use wasm_bindgen::JsValue;

/// What came of it.
pub struct Mended {
    /// All changes that read back, those that were put back included.
    pub changes: Vec<Change>,
    /// The keys of those that don't. None: then the storage is whole again, and its records are folded anew by the next start.
    pub damaged: Vec<String>,
    /// What this device is.
    pub me: DeviceCode,
}

/// Reads every change, puts back from the second copy what does not read, and, when all is there, writes the notes anew.
pub async fn mend(db: &Db, second: Option<&Second>) -> Result<Mended, Fault> {
    let _alone = lock::book_alone().await;
    let mut found = Found::default();
    db.each(CHANGES, "", "~", |row| {
        found.take(row);
        Ok(())
    })
    .await?;
    if let Some(second) = second {
        let copies = second.texts(&found.damaged).await?;
        let whole = copies
            .into_iter()
            .filter_map(|(key, text)| read(&key, &text));
        let whole: Vec<Change> = whole.collect();
        let transaction = db.strict(&[CHANGES])?;
        for change in &whole {
            put_change(&transaction, change)?;
        }
        transaction.complete().await?;
        let is_back = |key: &String| whole.iter().any(|change| change.key.to_string() == *key);
        found.damaged.retain(|key| !is_back(key));
        found.changes.extend(whole);
    }
    let device = db
        .meta("device")
        .await?
        .and_then(|text| json::read(&text).ok());
    let mended = Mended {
        me: device.unwrap_or_else(|| DeviceCode::from_chance(clock::chance())),
        changes: found.changes,
        damaged: found.damaged,
    };
    if mended.damaged.is_empty() {
        let transaction = db.strict(&[META])?;
        put_notes(&transaction, &mended, found.last_import).await?;
        transaction.complete().await?;
    }
    Ok(mended)
}

/// The notes as the changes have them, and a fold number that never was: the next start folds the records anew.
async fn put_notes(transaction: &Strict, mended: &Mended, last_import: u64) -> Result<(), Fault> {
    let mut state = State::new(mended.me);
    for change in &mended.changes {
        state.note(change.key, change.stamp);
    }
    let head = Head {
        seq: state.head(),
        stamp: state.clock.last(mended.me),
    };
    let vector: &Vector = &state.vector;
    let mut notes = vec![
        ("device", json::write(&mended.me)),
        ("head", head.to_json()),
        ("vector", json::write(vector)),
        ("fold", "0".to_owned()),
    ];
    let is_read = |text: Option<String>| text.is_none_or(|text| json::read_object(&text).is_ok());
    if !is_read(transaction.get(META, "imports", "v").await?) {
        // Numbers of imports are never used again.
        let mut imports = Object::new();
        if last_import > 0 {
            imports.insert(last_import.to_string(), "done".into());
        }
        notes.push(("imports", json::text(&imports.into())));
    }
    if !is_read(transaction.get(META, "peers", "v").await?) {
        notes.push(("peers", "{}".to_owned()));
    }
    for (key, value) in notes {
        transaction.put(META, &[("k", key), ("v", &value)])?;
    }
    transaction.delete(META, "undo")
}

#[derive(Default)]
struct Found {
    changes: Vec<Change>,
    damaged: Vec<String>,
    last_import: u64,
}

impl Found {
    fn take(&mut self, row: &JsValue) {
        let [key, line] = ["k", "t"].map(|field| text(row, field).unwrap_or_default());
        match read(&key, &line) {
            Some(change) => self.changes.push(change),
            None => self.damaged.push(key),
        }
        let import = text(row, "i").and_then(|number| number.parse().ok());
        self.last_import = self.last_import.max(import.unwrap_or(0));
    }
}

/// A change that reads back, and is the one that stands under its key.
fn read(key: &str, line: &str) -> Option<Change> {
    let change = Change::from_line(line).ok()?;
    (change.key.to_string() == key).then_some(change)
}

/// Has the next start fold every record anew, by a fold number that never was.
pub async fn fold_at_next_start(db: &Db) -> Result<(), Fault> {
    let transaction = db.strict(&[META])?;
    transaction.put(META, &[("k", "fold"), ("v", "0")])?;
    transaction.complete().await
}
