//! How files for other devices are made: as the trader last chose, kept on this device.

use super::Store;
use crate::shell::files;
use haulwren_core::json;

/// What can be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// The whole book, even for a device of which it is known how far it is.
    Whole,
    /// Pictures too.
    Pictures,
    /// Sealed by a passphrase.
    Sealed,
    /// By the share sheet, else as a download.
    Sheet,
}

/// How each choice is called in the note, in their order.
const NAMES: [&str; 4] = ["whole", "pictures", "sealed", "sheet"];

/// What is chosen, in the order of the choices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Way([bool; 4]);

/// Where it is noted.
const SENDING: &str = "sending";

impl Way {
    /// What is chosen before the trader chooses.
    fn usual() -> Self {
        Self([false, false, false, files::likes_sharing()])
    }

    /// Whether it is chosen.
    pub const fn is(self, choice: Choice) -> bool {
        self.0[choice as usize]
    }

    /// Chooses it, or not.
    pub const fn set(&mut self, choice: Choice, on: bool) {
        self.0[choice as usize] = on;
    }

    fn to_json(self) -> String {
        let fields = NAMES.iter().zip(self.0);
        let fields: Vec<_> = fields.map(|(name, on)| (*name, json::write(&on))).collect();
        json::ordered(&fields)
    }

    /// What is not noted stays as it is.
    fn noted(mut self, text: &str) -> Self {
        let noted = json::read_object(text).unwrap_or_default();
        for (name, on) in NAMES.iter().zip(&mut self.0) {
            let said = noted.get(*name).and_then(serde_json::Value::as_bool);
            *on = said.unwrap_or(*on);
        }
        self
    }
}

impl Store {
    /// How files are made.
    pub async fn way(self) -> Way {
        let usual = Way::usual();
        let db = self.inner.db.borrow().clone();
        let Some(db) = db else { return usual };
        match db.meta(SENDING).await {
            Ok(noted) => usual.noted(&noted.unwrap_or_default()),
            Err(fault) => {
                leptos::logging::warn!("how files were made is not known: {fault}");
                usual
            }
        }
    }

    /// Keeps how files are made.
    pub fn keep_way(self, way: Way) {
        let Some(db) = self.inner.db.borrow().clone() else {
            return;
        };
        leptos::task::spawn_local(async move {
            if let Err(fault) = db.put_meta_relaxed(SENDING, &way.to_json()).await {
                leptos::logging::warn!("how files are made is not kept: {fault}");
            }
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_way_is_noted_and_read_back() {
        let (way, other) = (
            Way([true, false, true, false]),
            Way([false, true, false, true]),
        );
        assert_eq!(
            way.to_json(),
            r#"{"whole":true,"pictures":false,"sealed":true,"sheet":false}"#
        );
        assert_eq!(other.noted(&way.to_json()), way);
        assert_eq!(other.noted(""), other);
    }
}
