//! Opening the book: what verdicts need is read first, then the rest in pages. Changes are not read, unless they must be folded again.

use super::clock;
use super::db::{CHANGES, Db, META, RECORDS, text};
use super::fault::Fault;
use super::lock;
use super::save::Head;
use haulwren_core::book::{KNOWN, Reading, State};
use haulwren_core::change::{Change, Key, RecordKey, Vector, by_record, fold};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use haulwren_core::kind::RecordKind;
use std::cell::RefCell;

/// Raised whenever folding the same changes comes to other records than before, but for new kinds and fields.
const FOLD: u32 = 5;

/// Records folded in one go.
const BATCH: usize = 500;

/// Reads this device's own notes and what verdicts need.
pub async fn begin(db: &Db, progress: impl Fn(usize, usize)) -> Result<State, Fault> {
    let me = device(db).await?;
    if !is_folded(db).await? {
        // Alone: what another tab saves meanwhile would be overwritten by what was read before.
        let _alone = lock::book_alone().await;
        if !is_folded(db).await? {
            refold(db, &progress).await?;
        }
    }
    let mut state = State::new(me);
    if let Some(vector) = note(db, "vector", json::read::<Vector>).await? {
        state.vector = vector;
    }
    if let Some(head) = note(db, "head", Head::from_json).await? {
        state.note(
            Key {
                device: me,
                seq: head.seq,
            },
            head.stamp,
        );
    }
    let state = RefCell::new(state);
    load(db, &state, Reading::Early).await?;
    Ok(state.into_inner())
}

/// By what the records were folded, as it stands in the notes: a kind or a field that has come since comes alive by folding again.
fn fold_note() -> String {
    format!("{FOLD}-{KNOWN:08x}")
}

async fn is_folded(db: &Db) -> Result<bool, Fault> {
    Ok(db.meta("fold").await?.as_deref() == Some(fold_note().as_str()))
}

/// Reads what is left.
pub async fn rest(db: &Db, state: &RefCell<State>) -> Result<(), Fault> {
    load(db, state, Reading::Late).await?;
    load(db, state, Reading::Last).await
}

/// Reads the kinds that are declared as read then.
async fn load(db: &Db, state: &RefCell<State>, when: Reading) -> Result<(), Fault> {
    for kind in RecordKind::ALL {
        if kind.read() == Some(when) {
            load_kind(db, state, kind).await?;
        }
    }
    Ok(())
}

async fn load_kind(db: &Db, state: &RefCell<State>, kind: &RecordKind) -> Result<(), Fault> {
    let (from, to) = (format!("{kind}/"), format!("{kind}0"));
    db.each(RECORDS, &from, &to, |row| {
        let damaged = |what: &dyn ToString| Fault::Damaged(what.to_string());
        let (key, json) = text(row, "k")
            .zip(text(row, "j"))
            .ok_or_else(|| damaged(&"a record without its text"))?;
        let record: RecordKey = key.parse().map_err(|error| damaged(&error))?;
        state
            .borrow_mut()
            .load(&record, &json)
            .map_err(|error| damaged(&error))
    })
    .await
}

async fn note<T>(
    db: &Db,
    key: &str,
    read: impl Fn(&str) -> Result<T, serde_json::Error>,
) -> Result<Option<T>, Fault> {
    let text = db.meta(key).await?;
    text.map(|text| read(&text))
        .transpose()
        .map_err(|error| Fault::Damaged(format!("{key}: {error}")))
}

/// This device's code, made at the first start. Reading and making it is one transaction, so two first tabs agree.
async fn device(db: &Db) -> Result<DeviceCode, Fault> {
    let transaction = db.strict(&[META])?;
    let known = transaction.get(META, "device", "v").await?;
    if let Some(text) = known {
        transaction.abort()?;
        return json::read(&text).map_err(|error| Fault::Damaged(format!("device: {error}")));
    }
    let code = DeviceCode::from_chance(clock::chance());
    transaction.put(META, &[("k", "device"), ("v", &format!("\"{code}\""))])?;
    transaction.put(META, &[("k", "fold"), ("v", &fold_note())])?;
    transaction.complete().await?;
    Ok(code)
}

/// Folds every change again into an empty store. A stop in between costs only time: the note of the fold number comes last, and until it
/// stands a start folds again.
async fn refold(db: &Db, progress: &impl Fn(usize, usize)) -> Result<(), Fault> {
    let mut all = Vec::new();
    db.each(CHANGES, "", "~", |row| {
        let line =
            text(row, "t").ok_or_else(|| Fault::Damaged("a change without its text".to_owned()))?;
        all.push(Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?);
        Ok(())
    })
    .await?;
    let records = by_record(&all);
    let total = records.len();
    // Whatever stands there without a change behind it goes.
    let transaction = db.strict(&[RECORDS])?;
    transaction.clear(RECORDS)?;
    transaction.complete().await?;
    let mut state = State::new(DeviceCode::from_chance([0; 5]));
    for (done, batch) in records.chunks(BATCH).enumerate() {
        let transaction = db.strict(&[RECORDS])?;
        for changes in batch {
            let record = changes[0].record();
            let folded = fold(changes.iter().copied(), |field| record.kind.rule(field));
            state.put_folded(&record, folded);
            if let Some(json) = state.stored(&record) {
                transaction.put(RECORDS, &[("k", &record.to_string()), ("j", &json)])?;
            }
        }
        transaction.complete().await?;
        progress((done * BATCH + batch.len()).min(total), total);
    }
    let transaction = db.strict(&[META])?;
    transaction.put(META, &[("k", "fold"), ("v", &fold_note())])?;
    transaction.complete().await
}
