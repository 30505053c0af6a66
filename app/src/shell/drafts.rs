//! Half-typed forms, written to this device's notes a moment after the last key, so that they survive a crash.

use super::db::Db;
use haulwren_core::json::{self, Object, fill};
use haulwren_core::view::{DecideDraft, Pile};
use std::rc::Rc;

/// A draft is written once nothing was typed for so many ms, at the latest twice as long after the last key. Longer than from key to key: a
/// write in between would get in their way.
pub const PAUSE_MS: u32 = 300;

/// All forms that hold something unsaved.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drafts {
    /// What is weighed up.
    pub decide: DecideDraft,
    /// What lies on the pile. Shared, so that a key typed elsewhere costs no copy of it.
    pub pile: Rc<Pile>,
    /// Every other half-typed form by a name of its own, as text: the pages that fill them come late.
    pub forms: Object,
}

impl Drafts {
    /// Whether anything typed would be lost without them.
    pub fn is_empty(&self) -> bool {
        self.decide.is_empty() && self.pile.is_empty() && self.forms.is_empty()
    }

    /// Reads them back. One that an earlier version wrote in another way is given up, and the others stay: they are conveniences, never
    /// records.
    pub async fn read(db: &Db) -> Self {
        let text = match db.meta("drafts").await {
            Ok(text) => text,
            Err(fault) => {
                leptos::logging::warn!("the drafts were not read: {fault}");
                None
            }
        };
        text.map(|text| Self::from_json(&text)).unwrap_or_default()
    }

    /// Writes them, without waiting for the disk.
    pub async fn write(&self, db: &Db) {
        if let Err(fault) = db.put_meta_relaxed("drafts", &self.to_json()).await {
            leptos::logging::warn!("the draft was not kept: {fault}");
        }
    }

    fn from_json(text: &str) -> Self {
        let mut drafts = Self::default();
        let Ok(object) = json::read_object(text) else {
            return drafts;
        };
        let mut pile = Pile::default();
        given_up("decide", fill(&object, "decide", &mut drafts.decide));
        given_up("pile", fill(&object, "pile", &mut pile));
        given_up("forms", fill(&object, "forms", &mut drafts.forms));
        drafts.pile = Rc::new(pile);
        drafts
    }

    fn to_json(&self) -> String {
        json::ordered(&[
            ("decide", json::write(&self.decide)),
            ("pile", json::write(&*self.pile)),
            ("forms", json::write(&self.forms)),
        ])
    }
}

/// Says which draft could not be read.
fn given_up(which: &str, read: Result<(), serde_json::Error>) {
    if let Err(error) = read {
        leptos::logging::warn!("the draft {which} is given up: {error}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn one_draft_that_cannot_be_read_leaves_the_others() {
        let text = r#"{"decide":{"ask":"6"},"pile":{"things":7},"forms":{"rules":{"reach":"40"}}}"#;
        let drafts = Drafts::from_json(text);
        assert_eq!(drafts.decide.ask, "6");
        assert_eq!(drafts.forms["rules"]["reach"], "40");
        assert!(drafts.pile.is_empty());
        assert_eq!(Drafts::from_json("no JSON"), Drafts::default());
    }

    #[wasm_bindgen_test]
    fn drafts_read_back() {
        let mut drafts = Drafts::default();
        drafts.decide.ask = "6".to_owned();
        Rc::make_mut(&mut drafts.pile).put(&drafts.decide.clone(), 2);
        assert_eq!(Drafts::from_json(&drafts.to_json()), drafts);
    }
}
