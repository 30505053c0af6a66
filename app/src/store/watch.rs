//! Watching over what the trader should know of without looking for it: what needs a choice, and that no copy left this device for long.

use super::{Keeping, Store};
use crate::shell::db::Db;
use crate::shell::{clock, device, scope};
use haulwren_core::book::State;
use haulwren_core::json::{self, field};
use leptos::prelude::{Owner, TimeoutHandle, set_timeout_with_handle};
use leptos::task::spawn_local;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

/// A while after the last save, so that it is in nobody's way.
const AFTER: Duration = Duration::from_millis(400);

/// From so many days on it is said that no copy left this device.
const DAYS: u64 = 7;

const DAY_MS: u64 = 24 * 60 * 60 * 1000;

impl Store {
    /// Begins to watch. Called once, when the late module is here.
    pub fn watch(self) {
        // Of no screen. A new root takes the place of the owner at hand.
        let asking = Owner::current();
        let owner = Owner::new_root(None);
        owner.with(|| {
            let timer = Rc::new(Cell::new(None::<TimeoutHandle>));
            crate::ui::el::follow(Box::new(move || {
                self.read(|_| ());
                if !self.all_read.get() {
                    return;
                }
                if let Some(waiting) = timer.take() {
                    waiting.clear();
                }
                timer.set(set_timeout_with_handle(move || self.look_after(), AFTER).ok());
            }));
        });
        // It watches as long as the page lives.
        std::mem::forget(owner);
        if let Some(asking) = asking {
            asking.set();
        }
    }

    fn look_after(self) {
        let needs = self.inner.book.borrow().attention().len();
        if self.needs.get_untracked() != needs {
            self.needs.set(needs);
        }
        spawn_local(async move { self.look_for_copy().await });
    }

    /// Says when no copy left this device for a week, though something was saved meanwhile. Asked anew after each copy.
    pub async fn look_for_copy(self) {
        let db = self.inner.db.borrow().clone();
        let Some(db) = db.filter(|_| !scope::is_sample()) else {
            return;
        };
        if self.keeping.get_untracked() != Keeping::Disk {
            return;
        }
        let last = last_copy(&db).await;
        let due = due(&self.inner.book.borrow(), last, clock::now().0);
        if self.copy_due.get_untracked() != due {
            self.copy_due.set(due);
        }
    }
}

/// When the last copy left, and how far the own saves went then.
async fn last_copy(db: &Db) -> Option<(u64, u64)> {
    let text = db.meta("copied").await.ok()??;
    let note = json::read_object(&text).ok()?;
    Some((field(&note, "at").ok()?, field(&note, "head").ok()?))
}

/// The sentence; empty while none is due.
fn due(book: &State, last: Option<(u64, u64)>, now: u64) -> String {
    let Some((begun, _)) = book.book() else {
        return String::new();
    };
    // The time of the book's beginning stands in its id (UUIDv7).
    let begun = u64::try_from(begun.0.as_u128() >> 80).unwrap_or(now);
    let (since, nothing_new) = match last {
        Some((at, head)) => (at, head >= book.head()),
        None => (begun, book.things().next().is_none()),
    };
    let days = now.saturating_sub(since) / DAY_MS;
    if nothing_new || days < DAYS {
        return String::new();
    }
    let here = device::likely_name().to_lowercase();
    match last {
        Some(_) => format!("Last copy off this {here} {days} days ago"),
        None => format!("No copy off this {here} in {days} days"),
    }
}
