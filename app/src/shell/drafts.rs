//! Half-typed forms, written to this device's notes a moment after the last key, so that they survive a crash.

use super::db::Db;
use haulwren_core::json::{self, Object, fill};
use haulwren_core::view::{DecideDraft, Pile, RulesForm, SetupForm, VenueForm};
use litemap::LiteMap;
use serde::Deserialize;
use serde_json::Error;

/// How long after the last key a draft is written, in ms.
pub const PAUSE_MS: u32 = 300;

/// All forms that hold something unsaved.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drafts {
    /// What is weighed up.
    pub decide: DecideDraft,
    /// What lies on the pile.
    pub pile: Pile,
    /// Venue forms by the venue's id, `new` for one to be added.
    pub venues: LiteMap<String, VenueForm>,
    /// The house rules.
    pub rules: Option<RulesForm>,
    /// Forms of rate cards, containers and kinds, by the address of their page.
    pub setups: Vec<(String, SetupForm)>,
}

impl Drafts {
    /// Whether anything typed would be lost without them.
    pub fn is_empty(&self) -> bool {
        self.decide.is_empty()
            && self.pile.is_empty()
            && self.venues.is_empty()
            && self.rules.is_none()
            && self.setups.is_empty()
    }

    /// Reads them back. Drafts that an earlier version wrote in another way are given up: they are conveniences, never records.
    pub async fn read(db: &Db) -> Self {
        let text = db.meta("drafts").await.ok().flatten();
        text.and_then(|text| Self::from_json(&text).ok())
            .unwrap_or_default()
    }

    /// Writes them, without waiting for the disk.
    pub async fn write(&self, db: &Db) {
        if let Err(fault) = db.put_meta_relaxed("drafts", &self.to_json()).await {
            leptos::logging::warn!("the draft was not kept: {fault}");
        }
    }

    fn from_json(text: &str) -> Result<Self, Error> {
        let object = json::read_object(text)?;
        let (mut drafts, mut venues) = (Self::default(), Object::new());
        let mut setups = Object::new();
        fill(&object, "decide", &mut drafts.decide)?;
        fill(&object, "pile", &mut drafts.pile)?;
        fill(&object, "venues", &mut venues)?;
        fill(&object, "rules", &mut drafts.rules)?;
        fill(&object, "setups", &mut setups)?;
        for (page, form) in setups {
            drafts
                .setups
                .extend(SetupForm::from_json(&form).map(|form| (page, form)));
        }
        for (id, form) in venues {
            drafts.venues.insert(id, VenueForm::deserialize(&form)?);
        }
        Ok(drafts)
    }

    fn to_json(&self) -> String {
        let mut venues = Object::new();
        for (id, form) in self.venues.iter() {
            venues.insert(id.clone(), json::value(form));
        }
        let mut setups = Object::new();
        for (page, form) in &self.setups {
            setups.insert(page.clone(), form.to_json());
        }
        json::ordered(&[
            ("decide", json::write(&self.decide)),
            ("pile", json::write(&self.pile)),
            ("venues", json::write(&venues)),
            ("rules", json::write(&self.rules)),
            ("setups", json::write(&setups)),
        ])
    }
}
