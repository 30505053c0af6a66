//! A second copy of what was said, beside the book's database.
//!
//! Why: one family of browsers keeps all databases of a site in one log. Killed in the middle of a write, it may find at a later start that
//! the log does not read back, and then throws all of it away, what was long saved included. Seen in the kill tests, about once in sixty
//! kills under writing without a pause. The same browsers offer storage buckets, each with a log of its own. So every save is written
//! there too, once the book has it and before the next one begins, in any tab: of the two logs only one is ever being written, so that no
//! kill can hit both, and the one that is not has all that was ever called saved before. At each start the two are made to agree.
//! Elsewhere nothing of this happens.

mod agree;

pub use agree::Agreed;

use super::clock;
use super::db::{CHANGES, Db, META, Strict};
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

/// The second copy, open: changes and notes, in rows as in the book's database.
pub struct Second {
    database: IdbDatabase,
    /// Kept, because the browser lets go of a bucket's databases with the objects that stand for it.
    _bucket: [JsValue; 2],
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
        let agreed = agree::agree(&db, &second).await?;
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

/// Makes the two agree again, after more than one save came into the book at once.
pub async fn agree_again(db: &Rc<Db>, second: &Rc<Second>) {
    let (db, second) = (db.clone(), second.clone());
    let agreeing = within(async move {
        let _alone = lock::alone("second").await;
        agree::agree(&db, &second).await
    });
    // The next start makes up for it.
    if let Some(Err(fault)) = agreeing.await {
        leptos::logging::warn!("the second copy is behind: {fault}");
    }
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
