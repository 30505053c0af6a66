//! A second copy of what was said, beside the book's database.
//!
//! Why: one family of browsers keeps all databases of a site in one log. Killed in the middle of a write, it may find at a later start that
//! the log does not read back, and then throws all of it away, what was long saved included. Seen in the kill tests, about once in sixty
//! kills under writing without a pause. The same browsers offer storage buckets, each with a log of its own. So every save is written
//! there too before it is called saved, one after the other and never at once, so that no kill can hit both; and at each start the two
//! are made to agree. Elsewhere nothing of this happens.

use super::clock;
use super::db::{CHANGES, Db, META, Strict, text};
use super::fault::Fault;
use super::lock;
use super::save::{Head, put_change};
use super::scope;
use futures::channel::oneshot;
use futures::future::{Either, select};
use haulwren_core::change::{Change, Key, Vector};
use haulwren_core::exchange::sha256;
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use idb::event::VersionChangeEvent;
use idb::{DatabaseEvent, Factory, KeyPath, ObjectStoreParams};
use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::window;
use leptos::task::spawn_local;
use std::pin::pin;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory};

/// The longest that a start or a save waits for the second copy, in ms: it is a safeguard, and must never stand in the way.
const PATIENCE_MS: u32 = 4_000;

/// The notes that both hold.
const NOTES: [&str; 3] = ["device", "head", "vector"];

/// The second copy, open: changes and notes, in rows as in the book's database.
pub struct Second {
    database: IdbDatabase,
    /// Kept, because the browser lets go of a bucket's databases with the objects that stand for it.
    _bucket: [JsValue; 2],
}

/// What making them agree came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreed {
    /// Nothing was lost.
    Whole,
    /// The book's database was empty, and so many changes were put back.
    Restored(usize),
}

impl Second {
    async fn open() -> Result<Option<Self>, JsValue> {
        let buckets = Reflect::get(&window().navigator(), &"storageBuckets".into())?;
        if buckets.is_undefined() {
            return Ok(None);
        }
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let open: Function = Reflect::get(&buckets, &"open".into())?.dyn_into()?;
        let opening: Promise = open.call2(&buckets, &name().into(), &options)?.dyn_into()?;
        let bucket = JsFuture::from(opening).await?;
        let factory: IdbFactory = Reflect::get(&bucket, &"indexedDB".into())?.dyn_into()?;
        let bucket = [bucket, factory.clone().into()];
        let mut request = Factory::from(factory)
            .open("copy", Some(1))
            .map_err(|error| said(&error))?;
        request.on_upgrade_needed(|event| {
            if let Err(error) = lay_out(&event) {
                leptos::logging::warn!("{error:?}");
            }
        });
        let database: IdbDatabase = request.await.map_err(|error| said(&error))?.into();
        let stores = database.object_store_names();
        // One whose layout failed is none.
        Ok(stores.contains(META).then_some(Self {
            database,
            _bucket: bucket,
        }))
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
        for (note, value) in NOTES.iter().zip(&values) {
            transaction.put(META, &[("k", note), ("v", value)])?;
        }
        transaction.complete().await
    }
}

/// Opens the second copy and makes the two agree, before the book is read. `None` where the browser has no buckets, or something is wrong
/// with it: then the book's database stands alone, as anywhere else.
pub async fn join(db: &Rc<Db>) -> Option<(Rc<Second>, Agreed)> {
    let db = db.clone();
    let joining = within(async move {
        let Some(second) = Second::open()
            .await
            .map_err(|error| Fault::from_value(&error))?
        else {
            return Ok(None);
        };
        let _alone = lock::alone("second").await;
        let agreed = agree(&db, &second).await?;
        Ok::<_, Fault>(Some((Rc::new(second), agreed)))
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

/// Held from before a save until it is in both: two writes at once, from two tabs, could both be hit by one kill.
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

/// An empty database beside a copy that is not was thrown away: it gets everything back,
/// its device's notes last, so that a stop in between only means to begin again.
async fn agree(db: &Db, second: &Second) -> Result<Agreed, Fault> {
    let ours = Known::of(&db.strict(&[META])?).await?;
    let theirs = Known::of(&second.strict()?).await?;
    let (Some(device), true) = (ours.device, ours.device == theirs.device) else {
        return match (ours.device, theirs.device) {
            (None, Some(_)) => restore(db, second).await.map(Agreed::Restored),
            (None, None) => Ok(Agreed::Whole),
            (Some(_), _) => {
                let transaction = second.strict()?;
                transaction.clear(CHANGES)?;
                transaction.clear(META)?;
                transaction.complete().await?;
                catch_up(db, second, "").await
            }
        };
    };
    if ours.vector == theirs.vector {
        return Ok(Agreed::Whole);
    }
    let (mine, copied) = (ours.vector.without(device), theirs.vector.without(device));
    // Only own saves are missing: what follows the last one that is there.
    let from = Key {
        device,
        seq: theirs.vector.of(device),
    };
    let is_own = mine == copied && from.seq > 0;
    let from = if is_own {
        from.to_string()
    } else {
        String::new()
    };
    catch_up(db, second, &from).await
}

/// Copies what the second has not.
async fn catch_up(db: &Db, second: &Second, from: &str) -> Result<Agreed, Fault> {
    let mut after = from.to_owned();
    loop {
        let rows = db.strict(&[CHANGES])?.page(CHANGES, &after, "~").await?;
        let Some(last) = rows.last().and_then(|row| text(row, "k")) else {
            break;
        };
        after = last;
        let transaction = second.strict()?;
        for row in &rows {
            transaction.put_row(CHANGES, row)?;
        }
        transaction.complete().await?;
    }
    // Read before the other transaction begins: it would be over while it waits.
    let notes = Notes::of(&db.strict(&[META])?).await?;
    notes.put_in(second.strict()?).await?;
    Ok(Agreed::Whole)
}

async fn restore(db: &Db, second: &Second) -> Result<usize, Fault> {
    let (mut after, mut count) = (String::new(), 0);
    loop {
        let rows = second.strict()?.page(CHANGES, &after, "~").await?;
        let Some(last) = rows.last().and_then(|row| text(row, "k")) else {
            break;
        };
        (after, count) = (last, count + rows.len());
        let transaction = db.strict(&[CHANGES])?;
        for row in &rows {
            transaction.put_row(CHANGES, row)?;
        }
        transaction.complete().await?;
    }
    let notes = Notes::of(&second.strict()?).await?;
    // No note of the fold number: so that the start folds the records anew.
    notes.put_in(db.strict(&[META])?).await?;
    Ok(count)
}

/// The notes, as they stand in one of them.
struct Notes([Option<String>; 3]);

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
struct Known {
    device: Option<DeviceCode>,
    vector: Vector,
}

impl Known {
    async fn of(transaction: &Strict) -> Result<Self, Fault> {
        let damaged = |error: serde_json::Error| Fault::Damaged(error.to_string());
        let Notes([device, _, vector]) = Notes::of(transaction).await?;
        let device = device.map(|text| json::read(&text)).transpose();
        let vector = vector.map(|text| json::read(&text)).transpose();
        Ok(Self {
            device: device.map_err(damaged)?,
            vector: vector.map_err(damaged)?.unwrap_or_default(),
        })
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
