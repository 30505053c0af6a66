//! Watching over what the trader should know of without looking for it: what needs a choice, and that no copy left this device for long.

use super::copy::Copied;
use super::{Keeping, Store};
use crate::live::of_the_page;
use crate::shell::{clock, device, scope};
use haulwren_core::book::State;
use leptos::prelude::{TimeoutHandle, set_timeout_with_handle};
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
        let begin = || {
            let timer = Rc::new(Cell::new(None::<TimeoutHandle>));
            crate::follow::follow(Box::new(move || {
                self.read(|_| ());
                if !self.all_read.get() {
                    return;
                }
                self.last_copy().track();
                if let Some(waiting) = timer.take() {
                    waiting.clear();
                }
                timer.set(set_timeout_with_handle(move || self.look_after(), AFTER).ok());
            }));
        };
        // Of no screen: it watches as long as the page lives.
        of_the_page(begin);
    }

    fn look_after(self) {
        let needs = self.inner.book.borrow().attention().len();
        if self.needs.get_untracked() != needs {
            self.needs.set(needs);
        }
        self.look_for_copy();
    }

    /// Says when no copy left this device for a week, though something was saved meanwhile.
    fn look_for_copy(self) {
        if scope::is_sample() || self.keeping.get_untracked() != Keeping::Disk {
            return;
        }
        let last = self.last_copy().get_untracked();
        let due = due(&self.inner.book.borrow(), last, clock::now().0);
        if self.copy_due.get_untracked() != due {
            self.copy_due.set(due);
        }
    }
}

/// The sentence; empty while none is due.
fn due(book: &State, last: Option<Copied>, now: u64) -> String {
    let Some((begun, _)) = book.book() else {
        return String::new();
    };
    // The time of the book's beginning stands in its id (UUIDv7).
    let begun = u64::try_from(begun.0.as_u128() >> 80).unwrap_or(now);
    let (since, nothing_new) = match last {
        Some(copied) => (copied.at, copied.head >= book.head()),
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
