//! A second copy of what was said, beside the book's database.
//!
//! Why: one family of browsers keeps all databases of a site in one log. Killed in the middle of a write, it may find at a later start that
//! the log does not read back, and then throws all of it away, what was long saved included. Seen in the kill tests, about once in sixty
//! kills under writing without a pause. The same browsers offer storage buckets, each with a log of its own. So every save is written
//! there too, once the book has it and before the next one begins, in any tab: of the two logs only one is ever being written, so that no
//! kill can hit both, and the one that is not has all that was ever called saved before. At each start the two are made to agree.
//!
//! A full disk is worse: it cuts off a record in either log, the browser writes on behind it, and throws the log away at its next start. So
//! after any fault all that is known is written into a copy in a fresh place, and from then on a save counts only once it is there too.
//! Browsers that keep each database in a file of its own have a copy only from then on.

mod agree;
mod anew;
mod place;

pub use agree::{Agreed, Trust};
pub use anew::{Memory, anew, copied};

use place::Place;

use super::clock;
use super::db::{CHANGES, Db, META, Strict, text};
use super::doubt;
use super::fault::Fault;
use super::lock;
use super::save::{Head, put_change};
use super::scope;
use futures::channel::oneshot;
use futures::future::{Either, select};
use haulwren_core::change::{Change, Vector};
use haulwren_core::exchange::sha256;
use haulwren_core::json;
use idb::event::VersionChangeEvent;
use idb::{DatabaseEvent, KeyPath, ObjectStoreParams};
use leptos::task::spawn_local;
use std::cell::Cell;
use std::pin::pin;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use web_sys::IdbDatabase;

/// The longest that a start or a save waits for the second copy, in ms: it is a safeguard, and must never stand in the way.
const PATIENCE_MS: u32 = 4_000;

/// The second copy, open: changes and notes, in rows as in the book's database.
pub struct Second {
    database: IdbDatabase,
    /// Whether a save counts only once it is here too: since the storage has failed, of the two this alone can be trusted.
    waits: Cell<bool>,
    /// Kept, because the browser lets go of a bucket's databases with the objects that stand for it.
    _bucket: JsValue,
}

impl Drop for Second {
    /// Closed at once: one that is given up can't be removed, nor made again, while a connection to it is open.
    fn drop(&mut self) {
        self.database.close();
    }
}

impl Second {
    /// Whether a save counts only once it is here too.
    pub fn waits(&self) -> bool {
        self.waits.get()
    }

    /// Opens the newest copy that is whole; where there is none, a new one in a browser that always keeps one. One whose writing was cut off
    /// is given up.
    async fn open(place: &Place) -> Result<Option<Self>, JsValue> {
        let mut numbers = place.all().await?;
        let newest = numbers.last().copied();
        while let Some(number) = numbers.pop() {
            let whole = async {
                let second = place.open(number).await?;
                let is_whole = numbers.is_empty() || second.is_whole().await;
                Ok::<_, JsValue>(is_whole.then_some(second))
            };
            match whole.await {
                Ok(Some(second)) => return Ok(Some(second)),
                Ok(None) => place.remove(number).await,
                // It is left where it is: the rescue page may still read it.
                Err(error) => leptos::logging::warn!("a second copy does not open: {error:?}"),
            }
        }
        if !place.always_keeps_one() {
            return Ok(None);
        }
        let fresh = newest.map_or(0, |number| number + 1);
        place.open(fresh).await.map(Some)
    }

    /// Whether it was written to its end: its notes come last.
    async fn is_whole(&self) -> bool {
        let known = async { agree::Known::of(&self.strict()?).await };
        known.await.is_ok_and(|known| known.is_whole())
    }

    /// What it has under some keys of changes.
    pub async fn texts(&self, keys: &[String]) -> Result<Vec<(String, String)>, Fault> {
        let mut found = Vec::new();
        let transaction = self.strict()?;
        for key in keys {
            let line = transaction.get(CHANGES, key, "t").await?;
            found.extend(line.map(|line| (key.clone(), line)));
        }
        transaction.complete().await?;
        Ok(found)
    }

    /// Hands over the line of each change that it has.
    pub async fn each(&self, mut take: impl FnMut(String)) -> Result<(), Fault> {
        let mut after = String::new();
        loop {
            let rows = self.strict()?.page(CHANGES, &after, "~").await?;
            rows.iter()
                .filter_map(|row| text(row, "t"))
                .for_each(&mut take);
            match rows.last().and_then(|row| text(row, "k")) {
                Some(last) => after = last,
                None => return Ok(()),
            }
        }
    }

    /// Empties it.
    pub async fn clear(&self) -> Result<(), Fault> {
        let transaction = self.strict()?;
        transaction.clear(CHANGES)?;
        transaction.clear(META)?;
        transaction.complete().await
    }

    fn strict(&self) -> Result<Strict, Fault> {
        Strict::begin(&self.database, &[CHANGES, META], "strict")
    }

    async fn put(&self, changes: &[Change], vector: &Vector) -> Result<(), Fault> {
        let Some(last) = changes.last() else {
            return Ok(());
        };
        let head = Head {
            seq: last.key.seq,
            stamp: last.stamp,
        };
        let transaction = self.strict()?;
        for change in changes {
            put_change(&transaction, change)?;
        }
        let values = [
            json::write(&last.key.device),
            head.to_json(),
            json::write(vector),
        ];
        for (note, value) in agree::NOTES.iter().zip(&values) {
            transaction.put(META, &[("k", note), ("v", value)])?;
        }
        transaction.complete().await
    }
}

/// Opens the second copy and makes the two agree, before the book is read. `None` where the browser keeps none, or something is wrong
/// with it: then the book's database stands alone, as anywhere else.
pub async fn join(db: &Rc<Db>) -> Option<(Rc<Second>, Agreed, Trust)> {
    let db = db.clone();
    let joining = within(async move {
        let js = |error: JsValue| Fault::from_value(&error);
        let place = Place::here().map_err(js)?;
        // Held from here on: a copy that another tab is writing anew is not whole yet.
        let _alone = lock::alone("second").await;
        let Some(second) = Second::open(&place).await.map_err(js)? else {
            return Ok(None);
        };
        // Nothing is written to what may be torn, before all of it is elsewhere.
        let is_torn =
            doubt::is_raised() && agree::Known::of(&db.strict(&[META])?).await?.is_whole();
        let agreed = if is_torn {
            Agreed::Whole
        } else {
            agree::agree(&db, &second).await?
        };
        let trust = agree::trust(&db, &second, agreed).await?;
        second.waits.set(trust != Trust::Whole);
        Ok::<_, Fault>(Some((Rc::new(second), agreed, trust)))
    });
    match joining.await {
        Some(Ok(joined)) => joined,
        Some(Err(fault)) => {
            leptos::logging::warn!("no second copy is kept: {fault}");
            None
        }
        None => None,
    }
}

/// Makes the two agree again, after more than one save came into the book at once.
pub async fn agree_again(db: &Rc<Db>, second: &Rc<Second>) {
    let waits = second.waits();
    let (db, second) = (db.clone(), second.clone());
    let agreeing = within(async move {
        let _alone = lock::alone("second").await;
        agree::agree(&db, &second).await
    });
    // The next start makes up for it, unless what came in is nowhere else that can be trusted.
    match agreeing.await {
        Some(Ok(_)) => {}
        _ if waits => doubt::raise(),
        Some(Err(fault)) => leptos::logging::warn!("the second copy is behind: {fault}"),
        None => {}
    }
}

/// The newest copy by a new connection.
pub async fn opened_again() -> Option<Second> {
    let opening = within(async move { Second::open(&Place::here()?).await });
    opening.await?.ok()?
}

/// Whether this browser keeps a second copy from the first save on.
pub fn is_kept_always() -> bool {
    Place::here().is_ok_and(|place| place.always_keeps_one())
}

/// Held from before a save until it is in both: two writes at once, of one tab or of two, could both be hit by one kill.
pub async fn alone() -> Option<lock::Held> {
    within(lock::alone("second")).await
}

/// Adds what a save wrote; `vector` counts it already. Whether it is there: the next start makes up for it.
pub async fn add(second: Rc<Second>, changes: Vec<Change>, vector: Vector) -> bool {
    let adding = within(async move { second.put(&changes, &vector).await });
    match adding.await {
        Some(Ok(())) => true,
        Some(Err(fault)) => {
            leptos::logging::warn!("the second copy is behind: {fault}");
            false
        }
        None => false,
    }
}

/// What a task comes to, unless it takes too long. Then it goes on by itself: a request that is dropped half-way would be answered into
/// nothing.
async fn within<T: 'static>(task: impl Future<Output = T> + 'static) -> Option<T> {
    let (tell, told) = oneshot::channel();
    spawn_local(async move {
        // Nobody listens any more when it took too long.
        drop(tell.send(task.await));
    });
    match select(told, pin!(clock::pause(PATIENCE_MS))).await {
        Either::Left((told, _)) => told.ok(),
        Either::Right(_) => {
            leptos::logging::warn!("the second copy does not answer");
            None
        }
    }
}

/// A bucket's name may hold small letters, digits and strokes only: the path that the app is served under is told by its digest.
fn name() -> String {
    format!("haulwren-{}", &sha256(scope::path().as_bytes())[..32])
}

fn lay_out(event: &VersionChangeEvent) -> Result<(), idb::Error> {
    let database = event.database()?;
    for name in [CHANGES, META] {
        let mut keyed = ObjectStoreParams::new();
        keyed.key_path(Some(KeyPath::new_single("k")));
        database.create_object_store(name, keyed)?;
    }
    Ok(())
}

fn said(error: &idb::Error) -> JsValue {
    error.to_string().into()
}
