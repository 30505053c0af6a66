//! Half-typed forms, written to this device's notes a moment after the last key, so that they survive a crash.

use super::db::Db;
use haulwren_core::view::{DecideDraft, RulesForm, VenueForm};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How long after the last key a draft is written, in ms.
pub const PAUSE_MS: u32 = 300;

/// All forms that hold something unsaved.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Drafts {
    /// What is weighed up.
    pub decide: DecideDraft,
    /// Venue forms by the venue's id, `new` for one to be added.
    pub venues: BTreeMap<String, VenueForm>,
    /// The house rules.
    pub rules: Option<RulesForm>,
}

impl Drafts {
    /// Whether anything typed would be lost without them.
    pub fn is_empty(&self) -> bool {
        self.decide.is_empty() && self.venues.is_empty() && self.rules.is_none()
    }

    /// Reads them back. Drafts that an earlier version wrote in another way are given up: they are conveniences, never records.
    pub async fn read(db: &Db) -> Self {
        let text = db.meta("drafts").await.ok().flatten();
        text.and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default()
    }

    /// Writes them, without waiting for the disk.
    pub async fn write(&self, db: &Db) {
        let text = serde_json::to_string(self).expect("drafts have a JSON form");
        if let Err(fault) = db.put_meta_relaxed("drafts", &text).await {
            leptos::logging::warn!("the draft was not kept: {fault}");
        }
    }
}
