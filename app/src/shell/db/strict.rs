//! Strict transactions: "complete" means that the system was told to keep it on the disk. The library cannot ask for them.

use super::{Fault, PAGE, text};
use crate::shell::{doubt, second};
use idb::{KeyRange as Range, Query};
use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbTransaction};

/// A strict transaction under way.
pub struct Strict {
    inner: IdbTransaction,
}

impl Strict {
    /// Begins a read-write transaction of a durability that the library cannot ask for.
    pub(in crate::shell) fn begin(
        database: &IdbDatabase,
        stores: &[&str],
        durability: &str,
    ) -> Result<Self, Fault> {
        let names: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
        let options = Object::new();
        let js = |error: JsValue| Fault::from_value(&error);
        Reflect::set(&options, &"durability".into(), &durability.into()).map_err(js)?;
        let begin: js_sys::Function = Reflect::get(database, &"transaction".into())
            .map_err(js)?
            .unchecked_into();
        let transaction = begin
            .call3(database, &names, &"readwrite".into(), &options)
            .map_err(|error| {
                // Where all databases share a log, it may have been cut off by what ended the connection.
                if second::is_kept_always() {
                    doubt::raise();
                }
                js(error)
            })?;
        Ok(Strict {
            inner: transaction.unchecked_into(),
        })
    }

    fn transaction(&self) -> idb::Transaction {
        self.inner.clone().into()
    }

    /// Reads the text `field` of a row.
    pub async fn get(&self, store: &str, key: &str, field: &str) -> Result<Option<String>, Fault> {
        let request = self
            .transaction()
            .object_store(store)?
            .get(Query::Key(key.into()))?;
        Ok(request.await?.and_then(|row| text(&row, field)))
    }

    /// The rows of an index with one value.
    pub async fn rows(&self, store: &str, index: &str, value: &str) -> Result<Vec<JsValue>, Fault> {
        let index = self.transaction().object_store(store)?.index(index)?;
        Ok(index.get_all(Some(Query::Key(value.into())), None)?.await?)
    }

    /// Takes a row away.
    pub fn delete(&self, store: &str, key: &str) -> Result<(), Fault> {
        self.transaction()
            .object_store(store)?
            .delete(Query::Key(key.into()))
            .map(drop)
            .map_err(untaken)
    }

    /// Reads the text `field` of the rows between two keys (`to` not included).
    pub async fn texts(
        &self,
        store: &str,
        from: &str,
        to: &str,
        field: &str,
    ) -> Result<Vec<String>, Fault> {
        let range = Range::bound(&from.into(), &to.into(), None, Some(true))?;
        let request = self
            .transaction()
            .object_store(store)?
            .get_all(Some(Query::KeyRange(range)), None)?;
        Ok(request
            .await?
            .iter()
            .filter_map(|row| text(row, field))
            .collect())
    }

    /// The rows after a key, before another, at most [`PAGE`] of them.
    pub(in crate::shell) async fn page(
        &self,
        store: &str,
        after: &str,
        to: &str,
    ) -> Result<Vec<JsValue>, Fault> {
        let range = Range::bound(&after.into(), &to.into(), Some(true), Some(true))?;
        let request = self
            .transaction()
            .object_store(store)?
            .get_all(Some(Query::KeyRange(range)), Some(PAGE))?;
        Ok(request.await?)
    }

    /// Puts bytes with their media type.
    pub fn put_bytes(
        &self,
        store: &str,
        key: &str,
        bytes: &Uint8Array,
        kind: &str,
    ) -> Result<(), Fault> {
        let row = row(&[("k", key), ("m", kind)]);
        let set = Reflect::set(&row, &"b".into(), bytes);
        debug_assert!(set.is_ok(), "a fresh plain object takes it");
        self.put_row(store, &row)
    }

    /// Puts a row that was read elsewhere.
    pub(in crate::shell) fn put_row(&self, store: &str, row: &JsValue) -> Result<(), Fault> {
        self.transaction()
            .object_store(store)?
            .put(row, None)
            .map(drop)
            .map_err(untaken)
    }

    /// Takes all rows away.
    pub(in crate::shell) fn clear(&self, store: &str) -> Result<(), Fault> {
        self.transaction()
            .object_store(store)?
            .clear()
            .map(drop)
            .map_err(untaken)
    }

    /// Puts a row. Its failure aborts the transaction, so [`Strict::complete`] tells.
    pub fn put(&self, store: &str, fields: &[(&str, &str)]) -> Result<(), Fault> {
        self.transaction()
            .object_store(store)?
            .put(&row(fields), None)
            .map(drop)
            .map_err(untaken)
    }

    /// Waits until the transaction is on the disk.
    pub async fn complete(self) -> Result<(), Fault> {
        // Committing by hand, for a page that is put away right now: a browser that keeps such a page as it stands would keep the
        // transaction open with it, and everyone after it waiting. Refused only by a transaction that is over, whose end is told below.
        let done = match self.transaction().commit() {
            Ok(committing) => committing.await,
            Err(_) => return Err(self.failed()),
        };
        match done {
            Ok(result) if result.is_committed() => Ok(()),
            _ => Err(self.failed()),
        }
    }

    /// It was not committed, though nobody called it off.
    fn failed(&self) -> Fault {
        doubt::raise();
        Fault::from_transaction(&self.inner)
    }

    /// Drops all that was put.
    pub fn abort(self) -> Result<(), Fault> {
        self.inner
            .abort()
            .map_err(|error| Fault::from_value(&error))
    }
}

/// What the storage did not take.
fn untaken(error: idb::Error) -> Fault {
    doubt::raise();
    error.into()
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
