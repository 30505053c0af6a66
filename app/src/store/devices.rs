//! The devices that keep the book: what this one is called and keeps, and taking everything off it.

use super::Store;
use crate::notice::Notice;
use crate::shell::db::Db;
use crate::shell::fault::Fault;
use crate::shell::{erase, page};
use haulwren_core::book::Command;
use haulwren_core::id::DeviceCode;
use leptos::task::spawn_local;
use std::rc::Rc;

/// A device that keeps the book.
#[derive(Clone, Debug, PartialEq)]
pub struct Keeper {
    /// Its code.
    pub code: DeviceCode,
    /// Its name, or its code while it has none here.
    pub name: String,
    /// How many of its changes are known here.
    pub known: u64,
    /// Whether it is this one.
    pub is_here: bool,
}

impl Store {
    /// All devices that anything is known of, this one first. Tracks the book.
    pub fn keepers(self) -> Vec<Keeper> {
        self.read(|book| {
            let others = book.vector.without(book.me);
            let codes = [book.me]
                .into_iter()
                .chain(others.iter().map(|key| key.device));
            let keeper = |code| Keeper {
                code,
                name: book.name_of(code),
                known: book.vector.of(code),
                is_here: code == book.me,
            };
            codes.map(keeper).collect()
        })
    }

    /// Calls this device something else.
    pub fn name_device(self, name: String) {
        self.dispatch(Command::NameDevice(name), |_| {});
    }

    /// Takes the book, its pictures and the app's files off this device, then begins anew. In every tab.
    pub fn erase(self) {
        self.saving.set(true);
        spawn_local(async move {
            // Taken, so that nothing half-typed is written after that. A book that is open for reading only has let go of it already.
            let kept = self.inner.db.take();
            let second = self.inner.second.borrow().clone();
            let open = match &kept {
                Some(db) => Ok(db.clone()),
                None => Db::open().await.map(Rc::new),
            };
            let erased = match open {
                Ok(db) => erase::book(&db, second.as_deref()).await,
                // Nothing can be stored here.
                Err(Fault::Absent | Fault::Blocked(_)) => Ok(()),
                Err(fault) => Err(fault),
            };
            if let Err(fault) = erased {
                self.saving.set(false);
                self.inner.db.replace(kept);
                let notice = Notice::storage("The book was not erased.", &fault);
                return self.notice.set(Some(notice));
            }
            erase::app().await;
            if let Some(tabs) = &*self.inner.tabs.borrow() {
                tabs.tell_again();
            }
            page::reload();
        });
    }
}
