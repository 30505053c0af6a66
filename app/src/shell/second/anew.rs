//! Writing all that is known anew, into a second copy in a fresh place, once the storage has failed: what the book's database still gives,
//! what the copy before has, and what this page saved. Nothing is called saved until it was read back from there.

use super::agree::{self, Known, Trust, missing};
use super::place::Place;
use super::{Second, lock};
use crate::shell::db::{CHANGES, Db, META, text};
use crate::shell::fault::Fault;
use crate::shell::save::{Head, put_change};
use haulwren_core::change::{Change, Vector};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use wasm_bindgen::JsValue;

/// What the page itself knows.
pub struct Memory {
    /// This device.
    pub me: DeviceCode,
    /// How far the book in memory goes.
    pub vector: Vector,
    /// What was saved since the page was opened.
    pub session: Vec<Change>,
}

/// Writes it, and gives the copies up that were there before. `memory` is what a page knows that had its book open.
pub async fn anew(db: &Db, memory: Option<&Memory>) -> Result<Second, Fault> {
    let _alone = lock::book_alone().await;
    let js = |error: JsValue| Fault::from_value(&error);
    let place = Place::here().map_err(js)?;
    let old = place.all().await.map_err(js)?;
    if let Some(last) = old.last() {
        // By a new connection: the one at hand may be dead. It may be torn as well; then what else is known must do.
        let filled = async { fill(db, &place.open(*last).await.map_err(js)?).await };
        if let Err(fault) = filled.await {
            leptos::logging::warn!("the second copy gives nothing back: {fault}");
        }
    }
    if let Some(memory) = memory {
        fill_from_memory(db, memory).await?;
    }
    let number = old.last().map_or(1, |last| last + 1);
    let written = async {
        let fresh = place.open(number).await.map_err(js)?;
        let vector = Known::of(&db.strict(&[META])?).await?.vector;
        agree::catch_up(db, &fresh, &missing(&Vector::default(), &vector)).await?;
        agree::put_note(fresh.strict()?, Trust::Anew).await?;
        drop(fresh);
        let fresh = place.open(number).await.map_err(js)?;
        read_back(db, &fresh, &vector).await?;
        // Nothing is written to what may be torn before all of it is elsewhere.
        agree::put_note(db.strict(&[META])?, Trust::Anew).await?;
        Ok(fresh)
    };
    match written.await {
        Ok(fresh) => {
            for number in old {
                place.remove(number).await;
            }
            fresh.waits.set(true);
            Ok(fresh)
        }
        Err(fault) => {
            place.remove(number).await;
            Err(fault)
        }
    }
}

/// Notes that a copy has left since.
pub async fn copied(db: &Db, second: &Second) -> Result<(), Fault> {
    agree::note(db, second, Trust::Copied).await
}

/// Puts back what the database lost and a copy has.
async fn fill(db: &Db, from: &Second) -> Result<(), Fault> {
    let ours = Known::of(&db.strict(&[META])?).await?;
    let theirs = Known::of(&from.strict()?).await?;
    let Some(device) = theirs.device else {
        return Ok(());
    };
    let is_behind =
        ours.device == Some(device) && ours.vector.of(device) < theirs.vector.of(device);
    if ours.device.is_none() || is_behind {
        agree::restore(db, from, &missing(&ours.vector, &theirs.vector)).await?;
    }
    Ok(())
}

/// Puts back what this page saved and the database does not have.
async fn fill_from_memory(db: &Db, memory: &Memory) -> Result<(), Fault> {
    let ours = Known::of(&db.strict(&[META])?).await?;
    if ours.device.is_some_and(|device| device != memory.me) {
        // Another tab took a new code for this device, which this page does not know of.
        return Err(Fault::MovedBack);
    }
    let known = ours.vector.of(memory.me);
    let is_lost = |change: &&Change| change.key.device == memory.me && change.key.seq > known;
    let gone: Vec<&Change> = memory.session.iter().filter(is_lost).collect();
    let mut vector = ours.vector;
    let is_covered = |vector: &Vector| {
        let mut known = memory.vector.iter();
        known.all(|key| key.seq <= vector.of(key.device))
    };
    let (Some(first), Some(last)) = (gone.first(), gone.last()) else {
        // What came in of other devices is not in memory.
        return is_covered(&vector).then_some(()).ok_or(Fault::MovedBack);
    };
    for change in &gone {
        vector.note(change.key);
    }
    if first.key.seq != known + 1 || !is_covered(&vector) {
        return Err(Fault::MovedBack);
    }
    let head = Head {
        seq: last.key.seq,
        stamp: last.stamp,
    };
    let transaction = db.strict(&[CHANGES, META])?;
    for change in gone {
        put_change(&transaction, change)?;
    }
    // A fold number that never was: the next start folds the records anew.
    let notes = [
        ("device", json::write(&memory.me)),
        ("head", head.to_json()),
        ("vector", json::write(&vector)),
        ("fold", "0".to_owned()),
    ];
    for (note, value) in notes {
        transaction.put(META, &[("k", note), ("v", &value)])?;
    }
    transaction.complete().await
}

/// Holds the fresh copy against the database, row by row, and both against what they claim: numbers have no holes.
async fn read_back(db: &Db, fresh: &Second, vector: &Vector) -> Result<(), Fault> {
    let mut count = 0;
    for run in missing(&Vector::default(), vector) {
        let mut after = run.after;
        loop {
            let written = fresh.strict()?.page(CHANGES, &after, &run.to).await?;
            let stands = db
                .strict(&[CHANGES])?
                .page(CHANGES, &after, &run.to)
                .await?;
            let lines =
                |rows: &[JsValue]| -> Vec<_> { rows.iter().map(|row| text(row, "t")).collect() };
            if lines(&written) != lines(&stands) {
                return Err(Fault::Damaged(
                    "what was written anew reads otherwise".to_owned(),
                ));
            }
            count += written.len() as u64;
            let Some(last) = written.last().and_then(|row| text(row, "k")) else {
                break;
            };
            after = last;
        }
    }
    let claimed: u64 = vector.iter().map(|key| key.seq).sum();
    if count == claimed {
        return Ok(());
    }
    Err(Fault::Damaged(format!(
        "{count} changes are left of {claimed}"
    )))
}
