//! Light or dark: as the device has it until the trader chooses. The choice belongs to this device, not to the book, so it lies where the boot
//! script can read it before anything is drawn.

use super::scope;
use leptos::prelude::{document, window};
use web_sys::Storage;

/// What can be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// As the device.
    Device,
    /// Light, also for bright sun.
    Light,
    /// Dark.
    Dark,
}

impl Theme {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Device, Self::Light, Self::Dark];

    const fn word(self) -> Option<&'static str> {
        match self {
            Self::Device => None,
            Self::Light => Some("light"),
            Self::Dark => Some("dark"),
        }
    }

    /// What stands now.
    pub fn now() -> Self {
        let root = document().document_element();
        let word = root.and_then(|root| root.get_attribute("data-theme"));
        let is_it = |theme: &Self| theme.word() == word.as_deref();
        Self::ALL.into_iter().find(is_it).unwrap_or(Self::Device)
    }

    /// Shows it, and keeps it for the next start. A browser that keeps nothing for us shows it until the page is closed.
    pub fn choose(self) {
        let key = scope::shared("theme");
        let storage = window().local_storage().ok().flatten();
        let keep = |storage: Storage| match self.word() {
            Some(word) => storage.set_item(&key, word),
            None => storage.remove_item(&key),
        };
        if let Some(Err(error)) = storage.map(keep) {
            leptos::logging::warn!("the theme is not kept: {error:?}");
        }
        let Some(root) = document().document_element() else {
            return;
        };
        let set = match self.word() {
            Some(word) => root.set_attribute("data-theme", word),
            None => root.remove_attribute("data-theme"),
        };
        debug_assert!(set.is_ok(), "a data attribute is taken");
    }
}
