//! Making the book's database and its second copy agree, at each start.

use super::Second;
use crate::shell::db::{CHANGES, Db, META, Strict, text};
use crate::shell::fault::Fault;
use haulwren_core::change::{Key, Vector};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use js_sys::{Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// The notes that both hold. The last stands only once the storage has failed and all was written anew.
pub(super) const NOTES: [&str; 4] = ["device", "head", "vector", "doubt"];

/// How far the two are trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trust {
    /// As ever.
    Whole,
    /// The storage had failed, and all was written anew: the book's own database may not outlive the browser, and no copy has left since.
    Anew,
    /// The same, and a copy has left.
    Copied,
}

impl Trust {
    /// What the note says.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Whole => "",
            Self::Anew => "anew",
            Self::Copied => "copied",
        }
    }

    fn of(note: Option<&str>) -> Self {
        let all = [Self::Anew, Self::Copied];
        let found = all.into_iter().find(|trust| note == Some(trust.word()));
        found.unwrap_or(Self::Whole)
    }
}

/// How far they are trusted, at a start. A database that was thrown away and filled from its copy is a fresh one: once a copy has left too,
/// nothing is in doubt any more.
pub(super) async fn trust(db: &Db, second: &Second, agreed: Agreed) -> Result<Trust, Fault> {
    let trust = Known::of(&db.strict(&[META])?).await?.trust;
    if trust != Trust::Copied || agreed == Agreed::Whole {
        return Ok(trust);
    }
    note(db, second, Trust::Whole).await?;
    Ok(Trust::Whole)
}

/// Notes in both how far they are trusted.
pub(super) async fn note(db: &Db, second: &Second, trust: Trust) -> Result<(), Fault> {
    // One after the other: a transaction that waits for another one would be over by then.
    put_note(db.strict(&[META])?, trust).await?;
    put_note(second.strict()?, trust).await
}

pub(super) async fn put_note(transaction: Strict, trust: Trust) -> Result<(), Fault> {
    match trust {
        Trust::Whole => transaction.delete(META, NOTES[3])?,
        _ => transaction.put(META, &[("k", NOTES[3]), ("v", trust.word())])?,
    }
    transaction.complete().await
}

/// What making them agree came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreed {
    /// Nothing was lost.
    Whole,
    /// The book had lost so many changes, and they were put back.
    Restored(usize),
}

/// An empty database beside a copy that is not was thrown away: it gets everything back, its device's notes last, so that a stop in
/// between only means to begin again.
pub(super) async fn agree(db: &Db, second: &Second) -> Result<Agreed, Fault> {
    let ours = Known::of(&db.strict(&[META])?).await?;
    let theirs = Known::of(&second.strict()?).await?;
    let (Some(device), true) = (ours.device, ours.device == theirs.device) else {
        return match (ours.device, theirs.device) {
            (None, Some(_)) => restore(db, second, &missing(&ours.vector, &theirs.vector)).await,
            (None, None) => Ok(Agreed::Whole),
            (Some(_), _) => begin_again(db, second, &ours).await,
        };
    };
    if ours.vector == theirs.vector {
        return Ok(Agreed::Whole);
    }
    let lost = missing(&ours.vector, &theirs.vector);
    // A save is in the book first. So a book that ends before the copy has lost its end.
    if ours.vector.of(device) < theirs.vector.of(device) {
        restore(db, second, &lost).await
    } else if lost.is_empty() {
        catch_up(db, second, &missing(&theirs.vector, &ours.vector)).await
    } else {
        // What a file had brought in was taken out again.
        begin_again(db, second, &ours).await
    }
}

/// The changes of one device after a number, up to another.
pub(super) struct Run {
    /// The key before the first.
    pub after: String,
    /// The key behind the last.
    pub to: String,
}

/// What one vector counts and another does not. Numbers have no holes.
pub(super) fn missing(of: &Vector, from: &Vector) -> Vec<Run> {
    let more = from.iter().filter(|key| key.seq > of.of(key.device));
    let run = |last: Key| {
        let [after, to] = [of.of(last.device), last.seq + 1].map(|seq| Key { seq, ..last });
        Run {
            after: after.to_string(),
            to: to.to_string(),
        }
    };
    more.map(run).collect()
}

/// Copies everything into an empty copy.
async fn begin_again(db: &Db, second: &Second, ours: &Known) -> Result<Agreed, Fault> {
    second.clear().await?;
    catch_up(db, second, &missing(&Vector::default(), &ours.vector)).await
}

/// Copies what the second has not.
pub(super) async fn catch_up(db: &Db, second: &Second, runs: &[Run]) -> Result<Agreed, Fault> {
    for run in runs {
        let mut after = run.after.clone();
        loop {
            let rows = db
                .strict(&[CHANGES])?
                .page(CHANGES, &after, &run.to)
                .await?;
            let Some(last) = rows.last().and_then(|row| text(row, "k")) else {
                break;
            };
            after = last;
            put_rows(second.strict()?, &rows).await?;
        }
    }
    // Read before the other transaction begins: it would be over while it waits.
    let notes = Notes::of(&db.strict(&[META])?).await?;
    notes.put_in(second.strict()?).await?;
    Ok(Agreed::Whole)
}

pub(super) async fn restore(db: &Db, second: &Second, runs: &[Run]) -> Result<Agreed, Fault> {
    let mut count = 0;
    for run in runs {
        let mut after = run.after.clone();
        loop {
            let rows = second.strict()?.page(CHANGES, &after, &run.to).await?;
            let Some(last) = rows.last().and_then(|row| text(row, "k")) else {
                break;
            };
            (after, count) = (last, count + rows.len());
            put_rows(db.strict(&[CHANGES])?, &rows).await?;
        }
    }
    let notes = Notes::of(&second.strict()?).await?;
    let transaction = db.strict(&[META])?;
    // A fold number that never was: the start folds the records anew.
    transaction.put(META, &[("k", "fold"), ("v", "0")])?;
    notes.put_in(transaction).await?;
    Ok(if count > 0 {
        Agreed::Restored(count)
    } else {
        Agreed::Whole
    })
}

/// Puts rows of changes without the numbers of their imports, which begin again in a database that was thrown away.
async fn put_rows(transaction: Strict, rows: &[JsValue]) -> Result<(), Fault> {
    for row in rows {
        forget_import(row)?;
        transaction.put_row(CHANGES, row)?;
    }
    transaction.complete().await
}

/// Takes the number of its import off a row.
fn forget_import(row: &JsValue) -> Result<(), Fault> {
    let row: &Object = row.unchecked_ref();
    Reflect::delete_property(row, &"i".into())
        .map(drop)
        .map_err(|error| Fault::from_value(&error))
}

/// The notes, as they stand in one of them.
struct Notes([Option<String>; 4]);

impl Notes {
    async fn of(transaction: &Strict) -> Result<Self, Fault> {
        let mut notes = Self(Default::default());
        for (note, value) in NOTES.iter().zip(&mut notes.0) {
            *value = transaction.get(META, note, "v").await?;
        }
        Ok(notes)
    }

    async fn put_in(&self, transaction: Strict) -> Result<(), Fault> {
        for (note, value) in NOTES.iter().zip(&self.0) {
            if let Some(value) = value {
                transaction.put(META, &[("k", note), ("v", value)])?;
            }
        }
        transaction.complete().await
    }
}

/// How far one of them goes.
pub(super) struct Known {
    pub device: Option<DeviceCode>,
    pub vector: Vector,
    trust: Trust,
}

impl Known {
    pub async fn of(transaction: &Strict) -> Result<Self, Fault> {
        let damaged = |error: serde_json::Error| Fault::Damaged(error.to_string());
        let Notes([device, _, vector, doubt]) = Notes::of(transaction).await?;
        let device = device.map(|text| json::read(&text)).transpose();
        let vector = vector.map(|text| json::read(&text)).transpose();
        Ok(Self {
            device: device.map_err(damaged)?,
            vector: vector.map_err(damaged)?.unwrap_or_default(),
            trust: Trust::of(doubt.as_deref()),
        })
    }

    /// Whether it was ever written to its end.
    pub const fn is_whole(&self) -> bool {
        self.device.is_some()
    }
}
