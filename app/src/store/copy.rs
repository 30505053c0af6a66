//! Copies of the book that leave this device, and when one last left.

use super::Store;
use crate::live::{Live, of_the_page};
use crate::shell::bring;
use crate::shell::fault::said;
use crate::shell::files::{self, Left};
use crate::shell::written::Written;
use crate::shell::{clock, doubt};
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use leptos::task::spawn_local;
use std::cell::OnceCell;

/// A file that left this device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Copied {
    /// When, in Unix milliseconds.
    pub at: u64,
    /// How.
    pub way: Left,
    /// Whether the whole book was in it.
    pub whole: bool,
    /// How many own changes there were then.
    pub head: u64,
}

/// Where it is noted.
const COPIED: &str = "copied";

thread_local! {
    static LAST: OnceCell<Live<Option<Copied>>> = const { OnceCell::new() };
}

impl Copied {
    fn to_json(self) -> String {
        let way = if self.way == Left::Shared {
            "shared"
        } else {
            "downloaded"
        };
        json::ordered(&[
            ("at", json::write(&self.at)),
            ("way", json::write(&way)),
            ("whole", json::write(&self.whole)),
            ("head", json::write(&self.head)),
        ])
    }

    fn from_json(text: &str) -> Option<Self> {
        let noted = json::read_object(text).ok()?;
        let way = match noted.get("way")?.as_str()? {
            "shared" => Left::Shared,
            "downloaded" => Left::Downloaded,
            _ => return None,
        };
        Some(Self {
            at: noted.get("at")?.as_u64()?,
            way,
            whole: noted.get("whole")?.as_bool()?,
            head: noted.get("head")?.as_u64()?,
        })
    }
}

impl Store {
    /// Hands files out and notes that they left: `whole` when all of the book is in them. Says how, or why not.
    pub async fn hand_over(
        self,
        files: &[Written],
        by_sheet: bool,
        whole: bool,
    ) -> Result<Left, String> {
        let named: Vec<_> = files.iter().map(|file| (&*file.name, &file.blob)).collect();
        let left = files::hand_over(&named, by_sheet).await;
        let way = left.map_err(|error| said(&error))?;
        // What can't be had any more makes no whole book.
        let whole = whole && files.iter().all(|file| file.lacks == 0);
        // What was saved since they were made is not in them, and pictures alone are no copy of the book.
        let head = files.iter().filter_map(|file| file.head).min();
        if let Some(head) = head.filter(|_| way != Left::Dismissed) {
            let at = clock::now().0;
            let copied = Copied {
                at,
                way,
                whole,
                head,
            };
            self.note_copied(copied).await;
        }
        Ok(way)
    }

    async fn note_copied(self, copied: Copied) {
        self.last_copy().set(Some(copied));
        if copied.whole
            && let Err(fault) = self.is_copied().await
        {
            leptos::logging::warn!("it is not noted that a copy left: {fault}");
        }
        let Some(db) = self.inner.db.borrow().clone() else {
            return;
        };
        // Nothing is written behind what may be torn.
        if doubt::is_raised() {
            return;
        }
        if let Err(fault) = db.put_meta_relaxed(COPIED, &copied.to_json()).await {
            leptos::logging::warn!("it is not noted that a copy left: {fault}");
        }
        // Others may build on what it holds.
        if let Err(fault) = bring::spoil(&db).await {
            leptos::logging::warn!("the last import could still be undone: {fault}");
        }
    }

    /// The last file that left this device; none before the first, and until it is read.
    pub fn last_copy(self) -> Live<Option<Copied>> {
        LAST.with(|last| {
            *last.get_or_init(|| {
                let last = of_the_page(|| Live::new(None));
                spawn_local(async move {
                    let Some(db) = self.inner.db.borrow().clone() else {
                        return;
                    };
                    let noted = db.meta(COPIED).await.unwrap_or_else(|fault| {
                        leptos::logging::warn!("when a copy last left is not read: {fault}");
                        None
                    });
                    if last.with_untracked(Option::is_none) {
                        last.set(noted.and_then(|text| Copied::from_json(&text)));
                    }
                });
                last
            })
        })
    }

    /// The devices of this book but this one, by their names, and whether a file was ever read from each.
    pub async fn others(self) -> Vec<(DeviceCode, String, bool)> {
        let db = self.inner.db.borrow().clone();
        let peers = match db {
            Some(db) => db.meta("peers").await.ok().flatten(),
            None => None,
        };
        let peers = peers.and_then(|text| json::read_object(&text).ok());
        let was_read = |code: DeviceCode| {
            let peers = peers.as_ref();
            peers.is_some_and(|peers| peers.contains_key(code.as_str()))
        };
        let book = self.inner.book.borrow();
        let mut others = Vec::new();
        for (_, device) in book.devices() {
            if let Some(code) = device.code.filter(|code| *code != book.me) {
                others.push((code, book.name_of(code), was_read(code)));
            }
        }
        others
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_copy_that_left_is_noted_and_read_back() {
        for way in [Left::Shared, Left::Downloaded] {
            let (at, whole) = (1_795_279_327_123, way == Left::Shared);
            let head = 7;
            let copied = Copied {
                at,
                way,
                whole,
                head,
            };
            assert_eq!(Copied::from_json(&copied.to_json()), Some(copied));
        }
        let text = r#"{"at":5,"way":"shared","whole":true,"head":3}"#;
        assert_eq!(Copied::from_json(text).map(|copied| copied.at), Some(5));
        assert_eq!(Copied::from_json("{}"), None);
    }
}
