//! Half-typed forms: changed through here, so that each change is soon written.

use super::Store;
use crate::shell::drafts::{Drafts, PAUSE_MS};
use crate::shell::{doubt, page};
use gloo::events::EventListener;
use gloo::timers::callback::Timeout;
use haulwren_core::view::DecideDraft;
use leptos::prelude::*;
use leptos::task::spawn_local;
use serde_json::Value;

impl Store {
    /// What is typed on Decide. Tracks it.
    pub fn draft<R>(self, read: impl FnOnce(&DecideDraft) -> R) -> R {
        self.drafts.with(|drafts| read(&drafts.decide))
    }

    /// Changes what is typed on Decide.
    pub fn edit_draft<R>(self, edit: impl FnOnce(&mut DecideDraft) -> R) -> R {
        self.edit_drafts(|drafts| edit(&mut drafts.decide))
    }

    /// The same for a key of the keypad: what follows from it is worked out when the next frame begins, once for all keys typed before it.
    ///
    /// Why: worked out at once, it is often finished just after a frame was begun, and seen a whole frame later.
    pub fn type_draft<R>(self, edit: impl FnOnce(&mut DecideDraft) -> R) -> R {
        let result = self.drafts.change(|drafts| edit(&mut drafts.decide));
        if !self.inner.typed.replace(true) {
            request_animation_frame(move || self.tell_typed());
        }
        if document().hidden() {
            self.tell_typed();
        }
        self.write_drafts_soon();
        result
    }

    /// Tells of keys that nobody was told of yet.
    fn tell_typed(self) {
        if self.inner.typed.replace(false) {
            self.drafts.tell();
        }
    }

    /// A half-typed form by its name, as `read` finds it. Tracks it.
    pub fn form<T>(self, name: &str, read: impl FnOnce(&Value) -> Option<T>) -> Option<T> {
        self.drafts
            .with(|drafts| drafts.forms.get(name).and_then(read))
    }

    /// Keeps a half-typed form, or gives it up.
    pub fn keep_form(self, name: &str, form: Option<Value>) {
        self.edit_drafts(|drafts| match form {
            Some(form) => drop(drafts.forms.insert(name.to_owned(), form)),
            None => drop(drafts.forms.remove(name)),
        });
    }

    pub(super) fn edit_drafts<R>(self, edit: impl FnOnce(&mut Drafts) -> R) -> R {
        // Whoever follows is told of what was typed before it too.
        self.inner.typed.set(false);
        let result = self.drafts.update(edit);
        self.write_drafts_soon();
        result
    }

    fn write_drafts_soon(self) {
        let unsaved = !self.drafts.with_untracked(Drafts::is_empty);
        if self.inner.unsaved.replace(unsaved) != unsaved {
            page::mark_unsaved(unsaved);
        }
        // A timer that runs is left to run: calling it off at each key would cost the key more than all the rest here.
        let is_waiting = self.inner.draft_timer.borrow().is_some();
        self.inner.still_typing.set(is_waiting);
        if !is_waiting {
            self.wait_to_write();
        }
    }

    fn wait_to_write(self) {
        let timer = Timeout::new(PAUSE_MS, move || {
            if self.inner.still_typing.replace(false) {
                self.wait_to_write();
            } else {
                self.write_drafts();
            }
        });
        self.inner.draft_timer.replace(Some(timer));
    }

    pub(super) fn write_drafts(self) {
        // A page under another window may have no frames.
        self.tell_typed();
        let inner = self.inner;
        inner.draft_timer.take();
        let Some(db) = inner.db.borrow().clone() else {
            return;
        };
        // Nothing is written behind what may be torn: once all is written anew, these are too.
        if doubt::is_raised() {
            return;
        }
        let drafts = self.drafts.get_untracked();
        spawn_local(async move { drafts.write(&db).await });
    }

    /// A page that goes out of sight may never come back: write at once. One that comes back may do so on another day.
    pub(super) fn write_drafts_when_hidden(self) {
        let seen = EventListener::new(&document(), "visibilitychange", move |_| {
            if document().hidden() {
                self.write_pending_drafts();
            } else {
                self.look_at_clock();
            }
        });
        let left = EventListener::new(&window(), "pagehide", move |_| self.write_pending_drafts());
        // Both listen as long as the page lives.
        seen.forget();
        left.forget();
    }

    fn write_pending_drafts(self) {
        if self.inner.draft_timer.borrow().is_some() {
            self.write_drafts();
        }
    }
}
