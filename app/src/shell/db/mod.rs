//! The book's database: its schema, which is frozen, and reading and writing rows. Rows are `{k, …}` objects of texts.
//!
//! The schema never changes: a version bump through the library would delete what it does not declare. A test compares what a browser
//! opened with a golden text.

mod strict;

pub use strict::Strict;

use super::fault::Fault;
use super::scope;
use futures::future::{Either, select};
use idb::Factory;
use js_sys::{Reflect, Uint8Array};
use rexie::{Index, ObjectStore, Rexie, TransactionMode};
use std::pin::pin;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::IdbDatabase;

/// Folded records.
pub const RECORDS: &str = "records";
/// What the trader said.
pub const CHANGES: &str = "changes";
/// Pictures.
pub const BLOBS: &str = "blobs";
/// This device's own notes.
pub const META: &str = "meta";

/// How long is waited before the database is opened again.
const AGAIN_MS: [u32; 3] = [200, 600, 1_500];

/// Rows read at once.
const PAGE: u32 = 2_000;

/// The open database, twice: the library's connection for reading and relaxed writes, and one for strict transactions, which the
/// library cannot ask for.
pub struct Db {
    rexie: Rexie,
    strict: IdbDatabase,
}

fn schema() -> [ObjectStore; 4] {
    let store = |name: &str| {
        ObjectStore::new(name)
            .key_path("k")
            .add_index(Index::new("x", "x").multi_entry(true))
    };
    let changes = ["r", "s", "i"]
        .into_iter()
        .fold(store(CHANGES), |store, key| {
            store.add_index(Index::new(key, key))
        });
    [store(RECORDS), changes, store(BLOBS), store(META)]
}

impl Db {
    /// Opens the book's database, and makes it at the first start. Again after a while when the storage is in trouble: after a full disk some
    /// browsers open it at the second time only.
    pub async fn open() -> Result<Self, Fault> {
        for pause in AGAIN_MS {
            match Self::open_as(&scope::database()).await {
                Err(Fault::Lost(why)) => leptos::logging::warn!("not open yet: {why}"),
                result => return result,
            }
            super::clock::pause(pause).await;
        }
        Self::open_as(&scope::database()).await
    }

    /// Opens a database by name.
    pub(super) async fn open_as(name: &str) -> Result<Self, Fault> {
        let opening = |error: &idb::Error| Fault::from_idb(error, true);
        let builder = schema().into_iter().fold(
            Rexie::builder(name).version(1),
            rexie::RexieBuilder::add_object_store,
        );
        let rexie = builder
            .build()
            .await
            .map_err(|error| Fault::from_rexie(&error, true))?;
        let again = Factory::new()
            .and_then(|factory| factory.open(name, Some(1)))
            .map_err(|error| opening(&error))?;
        let strict = again.await.map_err(|error| opening(&error))?.into();
        Ok(Self { rexie, strict })
    }

    /// Begins a read-write transaction that need not be on the disk when it completes.
    pub fn relaxed(&self, stores: &[&str]) -> Result<Strict, Fault> {
        self.begin(stores, "relaxed")
    }

    /// Begins a strict read-write transaction: "complete" then means that the system was told to keep it on the disk.
    pub fn strict(&self, stores: &[&str]) -> Result<Strict, Fault> {
        self.begin(stores, "strict")
    }

    fn begin(&self, stores: &[&str], durability: &str) -> Result<Strict, Fault> {
        Strict::begin(&self.strict, stores, durability)
    }

    /// A row of `meta`.
    pub async fn meta(&self, key: &str) -> Result<Option<String>, Fault> {
        let store = self
            .rexie
            .transaction(&[META], TransactionMode::ReadOnly)?
            .store(META)?;
        Ok(store.get(key.into()).await?.and_then(|row| text(&row, "v")))
    }

    /// Writes a row of `meta` without waiting for the disk. For drafts only.
    pub async fn put_meta_relaxed(&self, key: &str, value: &str) -> Result<(), Fault> {
        let transaction = self.begin(&[META], "relaxed")?;
        transaction.put(META, &[("k", key), ("v", value)])?;
        transaction.complete().await
    }

    /// Hands the rows of a store whose keys lie between two texts (`to` not included) to `take`, page by page.
    pub async fn each(
        &self,
        store: &str,
        from: &str,
        to: &str,
        mut take: impl FnMut(&JsValue) -> Result<(), Fault>,
    ) -> Result<(), Fault> {
        let (mut from, mut open) = (JsValue::from_str(from), false);
        loop {
            let range = rexie::KeyRange::bound(&from, &to.into(), Some(open), Some(true))?;
            let rows = self
                .rexie
                .transaction(&[store], TransactionMode::ReadOnly)?
                .store(store)?;
            let rows = rows.get_all(Some(range), Some(PAGE)).await?;
            rows.iter().try_for_each(&mut take)?;
            match rows.last() {
                Some(last) if rows.len() == PAGE as usize => {
                    (from, open) = (Reflect::get(last, &"k".into()).unwrap_or_default(), true);
                }
                _ => return Ok(()),
            }
        }
    }

    /// The bytes of a row, if it is there.
    pub async fn bytes(&self, store: &str, key: &str) -> Result<Option<Uint8Array>, Fault> {
        let rows = self
            .rexie
            .transaction(&[store], TransactionMode::ReadOnly)?
            .store(store)?;
        let row = rows.get(key.into()).await?;
        let bytes = row.and_then(|row| Reflect::get(&row, &"b".into()).ok());
        Ok(bytes.and_then(|bytes| bytes.dyn_into().ok()))
    }

    /// The rows of changes from a stamp on, that included, in the order of their stamps: a page of them, and whether there may be more.
    pub async fn by_stamp(&self, from: &str) -> Result<(Vec<JsValue>, bool), Fault> {
        let store = self
            .rexie
            .transaction(&[CHANGES], TransactionMode::ReadOnly)?
            .store(CHANGES)?;
        let range = rexie::KeyRange::lower_bound(&from.into(), Some(false))?;
        let rows = store.index("s")?.get_all(Some(range), Some(PAGE)).await?;
        let is_full = rows.len() == PAGE as usize;
        Ok((rows, is_full))
    }

    /// Whether a row is there.
    pub async fn has(&self, store: &str, key: &str) -> Result<bool, Fault> {
        let rows = self
            .rexie
            .transaction(&[store], TransactionMode::ReadOnly)?
            .store(store)?;
        Ok(rows.key_exists(key.into()).await?)
    }

    /// How many rows a store has.
    pub async fn count(&self, store: &str) -> Result<u32, Fault> {
        let rows = self
            .rexie
            .transaction(&[store], TransactionMode::ReadOnly)?
            .store(store)?;
        Ok(rows.count(None).await?)
    }

    /// The lines of all changes to a record.
    pub async fn history(&self, record: &str) -> Result<Vec<String>, Fault> {
        let store = self
            .rexie
            .transaction(&[CHANGES], TransactionMode::ReadOnly)?
            .store(CHANGES)?;
        let rows = store
            .index("r")?
            .get_all(Some(rexie::KeyRange::only(&record.into())?), None)
            .await?;
        Ok(rows.iter().filter_map(|row| text(row, "t")).collect())
    }
}

/// Deletes a database of ours by name, unless someone still uses it: then it goes when they have left.
pub async fn forget(name: &str) {
    let Ok(request) = Factory::new().and_then(|factory| factory.delete(name)) else {
        return leptos::logging::warn!("{name} can't be deleted");
    };
    let patience = super::clock::pause(FORGETTING_MS);
    if let Either::Right(_) = select(pin!(request.into_future()), pin!(patience)).await {
        leptos::logging::warn!("{name} is still in use");
    }
}

/// The longest that the page waits for a database to go, in ms.
const FORGETTING_MS: u32 = 1_000;

/// A text in a row.
pub fn text(row: &JsValue, field: &str) -> Option<String> {
    Reflect::get(row, &JsValue::from_str(field))
        .ok()?
        .as_string()
}
