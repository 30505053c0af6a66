//! A new code for this device, when a file shows that another one goes by the same: one of them was set up from a copy of the other.

use crate::shell::clock;
use crate::shell::db::{CHANGES, Db, META, Strict, text};
use crate::shell::fault::Fault;
use crate::shell::lock;
use crate::shell::save::{self, Head, put_change};
use haulwren_core::book::State;
use haulwren_core::change::{Change, Key};
use haulwren_core::exchange::{issued_anew, rests_on};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use std::cell::RefCell;

/// Takes one. What was said alone, after the number up to which both say the same, is issued anew under it; the old keys are then free for
/// what the other device says under them. Whether it was: not when something of a third device rests on it, which stays as it is then. The
/// book in memory, of every tab, is to be read anew.
pub async fn take_new_code(db: &Db, book: &RefCell<State>, after: u64) -> Result<bool, Fault> {
    let _alone = lock::book_alone().await;
    save::catch_up(db, book).await?;
    let (old, code) = (book.borrow().me, DeviceCode::from_chance(clock::chance()));
    let (mut own, mut is_needed) = (Vec::new(), false);
    db.each(CHANGES, "", "~", |row| {
        let line = text(row, "t").unwrap_or_default();
        let change = Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?;
        is_needed |= rests_on(&change, old, after);
        if change.key.device == old {
            own.push(change);
        }
        Ok(())
    })
    .await?;
    let anew = if is_needed {
        Vec::new()
    } else {
        issued_anew(&own, after, code)
    };
    let mut vector = book.borrow().vector.clone();
    if !is_needed {
        vector = vector.without(old);
        for (device, seq) in [(old, after), (code, anew.len() as u64)] {
            vector.note(Key { device, seq });
        }
    }
    // No stamp of it may fall behind what was said.
    let stamp = anew
        .last()
        .map_or_else(|| book.borrow().clock.last(code), |last| last.stamp);
    let head = Head {
        seq: anew.len() as u64,
        stamp,
    };
    let transaction = db.strict(&[CHANGES, META])?;
    let gone = own
        .iter()
        .filter(|change| !is_needed && change.key.seq > after);
    let put = || -> Result<(), Fault> {
        for change in gone {
            transaction.delete(CHANGES, &change.key.to_string())?;
        }
        for change in &anew {
            put_change(&transaction, change)?;
        }
        put_notes(&transaction, code, &head, &json::write(&vector))
    };
    if let Err(fault) = put() {
        // Else the browser would commit what was put so far. It may have given up by itself already.
        drop(transaction.abort());
        return Err(fault);
    }
    transaction.complete().await?;
    Ok(!is_needed)
}

/// The notes, and a fold number that never was: disputes name changes by their keys, so the next start folds the records anew.
fn put_notes(
    transaction: &Strict,
    code: DeviceCode,
    head: &Head,
    vector: &str,
) -> Result<(), Fault> {
    let notes = [
        ("device", &*json::write(&code)),
        ("head", &head.to_json()),
        ("vector", vector),
        ("fold", "0"),
    ];
    for (note, value) in notes {
        transaction.put(META, &[("k", note), ("v", value)])?;
    }
    // What it took would rest on keys that are no more.
    transaction.delete(META, "undo")
}
