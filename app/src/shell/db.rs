//! The book's database: its schema, which is frozen, and reading and writing rows. Rows are `{k, …}` objects of texts.
//!
//! The schema never changes, so that any version of the app opens any book. A test compares what a browser opened with a golden text.

use super::fault::Fault;
use super::scope;
use idb::event::VersionChangeEvent;
use idb::request::{GetAllStoreRequest, GetStoreRequest};
use idb::{DatabaseEvent, Event, Factory, IndexParams, KeyPath, KeyRange};
use idb::{ObjectStoreParams, Query, Request};
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbTransaction};

/// Folded records.
pub const RECORDS: &str = "records";
/// What the trader said.
pub const CHANGES: &str = "changes";
/// Pictures.
pub const BLOBS: &str = "blobs";
/// This device's own notes.
pub const META: &str = "meta";

/// Rows read at once.
const PAGE: u32 = 2_000;

/// The open database.
pub struct Db {
    database: IdbDatabase,
}

/// Makes the stores and their indexes, in a database that is new.
fn lay_out(event: &VersionChangeEvent) -> Result<(), idb::Error> {
    let database = event.database()?;
    for name in [RECORDS, CHANGES, BLOBS, META] {
        let mut keyed = ObjectStoreParams::new();
        keyed.key_path(Some(KeyPath::new_single("k")));
        let store = database.create_object_store(name, keyed)?;
        let indexes: &[&str] = if name == CHANGES {
            &["x", "r", "s", "i"]
        } else {
            &["x"]
        };
        for key in indexes {
            let mut params = IndexParams::new();
            params.multi_entry(*key == "x");
            store.create_index(key, KeyPath::new_single(key), Some(params))?;
        }
    }
    Ok(())
}

impl Db {
    /// Opens the book's database, and makes it at the first start.
    pub async fn open() -> Result<Self, Fault> {
        Self::open_as(&scope::database()).await
    }

    /// Opens a database by name.
    pub(super) async fn open_as(name: &str) -> Result<Self, Fault> {
        let opening = |error: &idb::Error| Fault::from_idb(error, true);
        let mut request = Factory::new()
            .and_then(|factory| factory.open(name, Some(1)))
            .map_err(|error| opening(&error))?;
        request.on_upgrade_needed(|event| {
            if lay_out(&event).is_err() {
                // Half a schema would stay half for ever. Without its transaction nothing is made, and the opening fails.
                let made_by = event
                    .target()
                    .ok()
                    .and_then(|request| request.transaction());
                made_by.map(idb::Transaction::abort);
            }
        });
        let database = request.await.map_err(|error| opening(&error))?.into();
        Ok(Self { database })
    }

    /// Begins a strict read-write transaction: "complete" then means that the system was told to keep it on the disk.
    pub fn strict(&self, stores: &[&str]) -> Result<Strict, Fault> {
        self.begin(stores, "strict")
    }

    fn begin(&self, stores: &[&str], durability: &str) -> Result<Strict, Fault> {
        let names: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
        let options = Object::new();
        let js = |error: JsValue| Fault::from_value(&error);
        Reflect::set(&options, &"durability".into(), &durability.into()).map_err(js)?;
        let begin: js_sys::Function = Reflect::get(&self.database, &"transaction".into())
            .map_err(js)?
            .unchecked_into();
        let transaction = begin
            .call3(&self.database, &names, &"readwrite".into(), &options)
            .map_err(js)?;
        Ok(Strict {
            inner: transaction.unchecked_into(),
        })
    }

    /// A store, for reading.
    fn store(&self, name: &str) -> Result<idb::ObjectStore, Fault> {
        let transaction = self.database.transaction_with_str(name);
        let transaction = transaction.map_err(|error| Fault::from_value(&error))?;
        Ok(idb::Transaction::from(transaction).object_store(name)?)
    }

    /// A row of `meta`.
    pub async fn meta(&self, key: &str) -> Result<Option<String>, Fault> {
        let request = self.store(META)?.get(Query::Key(key.into()))?;
        one(request, "v").await
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
            let range = KeyRange::bound(&from, &to.into(), Some(open), Some(true))?;
            let request = self
                .store(store)?
                .get_all(Some(Query::KeyRange(range)), Some(PAGE))?;
            let rows = request.await?;
            rows.iter().try_for_each(&mut take)?;
            match rows.last() {
                Some(last) if rows.len() == PAGE as usize => {
                    (from, open) = (Reflect::get(last, &"k".into()).unwrap_or_default(), true);
                }
                _ => return Ok(()),
            }
        }
    }

    /// The lines of all changes to a record.
    pub async fn history(&self, record: &str) -> Result<Vec<String>, Fault> {
        let range = KeyRange::only(&record.into())?;
        let request = self
            .store(CHANGES)?
            .index("r")?
            .get_all(Some(Query::KeyRange(range)), None)?;
        all(request, "t").await
    }
}

/// A strict transaction under way.
pub struct Strict {
    inner: IdbTransaction,
}

impl Strict {
    fn transaction(&self) -> idb::Transaction {
        self.inner.clone().into()
    }

    /// Reads the text `field` of a row.
    pub async fn get(&self, store: &str, key: &str, field: &str) -> Result<Option<String>, Fault> {
        let request = self
            .transaction()
            .object_store(store)?
            .get(Query::Key(key.into()))?;
        one(request, field).await
    }

    /// Reads the text `field` of the rows between two keys (`to` not included).
    pub async fn texts(
        &self,
        store: &str,
        from: &str,
        to: &str,
        field: &str,
    ) -> Result<Vec<String>, Fault> {
        let range = KeyRange::bound(&from.into(), &to.into(), None, Some(true))?;
        let request = self
            .transaction()
            .object_store(store)?
            .get_all(Some(Query::KeyRange(range)), None)?;
        all(request, field).await
    }

    /// Puts a row. Its failure aborts the transaction, so [`Strict::complete`] tells.
    pub fn put(&self, store: &str, fields: &[(&str, &str)]) -> Result<(), Fault> {
        self.transaction()
            .object_store(store)?
            .put(&row(fields), None)
            .map(drop)
            .map_err(Fault::from)
    }

    /// Waits until the transaction is on the disk.
    pub async fn complete(self) -> Result<(), Fault> {
        // Committing by hand, for a page that is put away right now: a browser that keeps such a page as it stands would keep the
        // transaction open with it, and everyone after it waiting. Refused only by a transaction that is over, whose end is told below.
        let done = match self.transaction().commit() {
            Ok(committing) => committing.await,
            Err(_) => return Err(Fault::from_transaction(&self.inner)),
        };
        match done {
            Ok(result) if result.is_committed() => Ok(()),
            _ => Err(Fault::from_transaction(&self.inner)),
        }
    }

    /// Drops all that was put.
    pub fn abort(self) -> Result<(), Fault> {
        self.inner
            .abort()
            .map_err(|error| Fault::from_value(&error))
    }
}

fn row(fields: &[(&str, &str)]) -> JsValue {
    let object = Object::new();
    for (key, value) in fields {
        // Setting a property of a fresh plain object cannot fail.
        let set = Reflect::set(&object, &JsValue::from_str(key), &JsValue::from_str(value));
        debug_assert!(set.is_ok());
    }
    object.into()
}

/// The text `field` of the row asked for.
async fn one(request: GetStoreRequest, field: &str) -> Result<Option<String>, Fault> {
    Ok(request.await?.and_then(|row| text(&row, field)))
}

/// The text `field` of all rows asked for.
async fn all(request: GetAllStoreRequest, field: &str) -> Result<Vec<String>, Fault> {
    let rows = request.await?;
    Ok(rows.iter().filter_map(|row| text(row, field)).collect())
}

/// A text in a row.
pub fn text(row: &JsValue, field: &str) -> Option<String> {
    Reflect::get(row, &JsValue::from_str(field))
        .ok()?
        .as_string()
}
