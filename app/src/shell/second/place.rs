//! Where second copies are kept. Each has a number: one that can't be trusted any more is given up for another in a fresh place, since what
//! was torn stays torn.
//!
//! Storage buckets have a log of their own each. Browsers without them keep each database in a file of its own; there a copy is made only
//! once the storage has failed.

use super::super::scope;
use super::{Second, lay_out, name, said};
use idb::Factory;
use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory};

/// Where this browser keeps them.
pub(super) enum Place {
    /// In its storage buckets.
    Buckets(JsValue),
    /// In databases.
    Databases,
}

impl Place {
    /// The place of this browser.
    pub fn here() -> Result<Self, JsValue> {
        let buckets = Reflect::get(&window().navigator(), &"storageBuckets".into())?;
        Ok(if buckets.is_undefined() {
            Self::Databases
        } else {
            Self::Buckets(buckets)
        })
    }

    /// Whether a copy is kept from the first save on.
    pub const fn always_keeps_one(&self) -> bool {
        matches!(self, Self::Buckets(_))
    }

    fn name(&self, number: u32) -> String {
        match (self, number) {
            (Self::Buckets(_), 0) => name(),
            (Self::Buckets(_), number) => format!("{}-{number}", name()),
            (Self::Databases, number) => format!("{}{number}", scope::shared("copy-")),
        }
    }

    /// The numbers of the copies that are there, the lowest first.
    pub async fn all(&self) -> Result<Vec<u32>, JsValue> {
        let (from, what) = match self {
            Self::Buckets(buckets) => (buckets.clone(), "keys"),
            Self::Databases => (Reflect::get(&window(), &"indexedDB".into())?, "databases"),
        };
        let Ok(list) = Reflect::get(&from, &what.into())?.dyn_into::<Function>() else {
            return Ok(Vec::new());
        };
        let list: Promise = list.call0(&from)?.dyn_into()?;
        let list: Array = JsFuture::from(list).await?.dyn_into()?;
        let name = |one: JsValue| match self {
            Self::Buckets(_) => one.as_string(),
            Self::Databases => Reflect::get(&one, &"name".into()).ok()?.as_string(),
        };
        let mut numbers: Vec<u32> = list
            .iter()
            .filter_map(|one| self.number(&name(one)?))
            .collect();
        numbers.sort_unstable();
        Ok(numbers)
    }

    fn number(&self, name: &str) -> Option<u32> {
        let first = self.name(0);
        match self {
            Self::Buckets(_) if name == first => Some(0),
            Self::Buckets(_) => name.strip_prefix(&first)?.strip_prefix('-')?.parse().ok(),
            Self::Databases => name.strip_prefix(first.strip_suffix('0')?)?.parse().ok(),
        }
    }

    /// Opens a copy, and makes it where it is not there yet.
    pub async fn open(&self, number: u32) -> Result<Second, JsValue> {
        let (factory, name, bucket) = match self {
            Self::Databases => (Factory::new(), self.name(number), JsValue::UNDEFINED),
            Self::Buckets(buckets) => {
                let options = Object::new();
                Reflect::set(&options, &"durability".into(), &"strict".into())?;
                let open: Function = Reflect::get(buckets, &"open".into())?.dyn_into()?;
                let name = self.name(number);
                let opening: Promise = open.call2(buckets, &name.into(), &options)?.dyn_into()?;
                let bucket = JsFuture::from(opening).await?;
                let factory: IdbFactory = Reflect::get(&bucket, &"indexedDB".into())?.dyn_into()?;
                let kept = Array::of2(&bucket, &factory.clone().into());
                (Ok(Factory::from(factory)), "copy".to_owned(), kept.into())
            }
        };
        let mut request = factory
            .and_then(|factory| factory.open(&name, Some(1)))
            .map_err(|error| said(&error))?;
        request.on_upgrade_needed(|event| {
            if let Err(error) = lay_out(&event) {
                leptos::logging::warn!("{error:?}");
            }
        });
        let database: IdbDatabase = request.await.map_err(|error| said(&error))?.into();
        if !database.object_store_names().contains(super::META) {
            return Err("a copy that was not laid out".into());
        }
        Ok(Second {
            database,
            waits: std::cell::Cell::new(false),
            _bucket: bucket,
        })
    }

    /// Gives a copy up. What the browser does not let go of is looked for at each start.
    pub async fn remove(&self, number: u32) {
        match self {
            Self::Databases => super::super::db::forget(&self.name(number)).await,
            Self::Buckets(buckets) => {
                let removed = async {
                    let remove: Function = Reflect::get(buckets, &"delete".into())?.dyn_into()?;
                    let name = self.name(number);
                    let removing: Promise = remove.call1(buckets, &name.into())?.dyn_into()?;
                    JsFuture::from(removing).await
                };
                if let Err(error) = removed.await {
                    leptos::logging::warn!("a copy that was given up is still there: {error:?}");
                }
            }
        }
    }
}
