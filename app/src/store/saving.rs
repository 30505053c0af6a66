//! Dispatch: a command, a purchase or an undo goes to the disk first, and is shown when it is there.

use super::{Inner, Keeping, Store};
use crate::late::{self, Late};
use crate::notice::Notice;
use crate::shell::db::Db;
use crate::shell::fault::Fault;
use crate::shell::save::{self, Plan, Saved, Unsaved};
use crate::shell::{clock, doubt, lock, second};
use haulwren_core::book::{Command, Context, Edits, Refusal, State, undo};
use haulwren_core::change::{Change, Key};
use haulwren_core::stamp::At;
use haulwren_core::view::{self, Done, Field};
use leptos::task::spawn_local;
use std::pin::Pin;
use std::rc::Rc;

/// A save under way.
type Task = Pin<Box<dyn Future<Output = Result<Saved, Unsaved>>>>;

impl Store {
    /// Saves what a command comes to, then calls `then` with whether it was saved. An error is shown as a notice.
    pub fn dispatch(self, command: Command, then: impl FnOnce(bool) + 'static) {
        let plan = move |state: &State| in_context(&mut |context| state.decide(&command, context));
        self.run(
            Box::pin(async move { self.saved(&plan).await }),
            Box::new(then),
        );
    }

    /// The same for one of the commands that a book can decide at once (see [`State::decide_at_once`]): for screens that come first, so that
    /// what decides the others can come late.
    pub fn dispatch_at_once(self, command: Command, then: impl FnOnce(bool) + 'static) {
        let plan = move |state: &State| {
            let decided = in_context_or_none(state, &command);
            debug_assert!(decided.is_some(), "a command of the first screens");
            decided.unwrap_or(Err(Refusal::NoChange))
        };
        self.run(
            Box::pin(async move { self.saved(&plan).await }),
            Box::new(then),
        );
    }

    /// Logs what is typed on Decide as bought, and empties the form. A second tap while the first is being saved does nothing.
    pub fn buy(self) {
        if self.saving.get_untracked() {
            return;
        }
        let now = clock::now();
        let draft = self.drafts.with_untracked(|drafts| drafts.decide.clone());
        let purchase = view::purchase(&self.inner.book.borrow(), &draft, now);
        let Some(purchase) = purchase else { return };
        // The keypad stays free while the disk is busy: what is typed from here on is the next thing's asking price.
        self.type_draft(|draft| draft.go(Field::Ask));
        self.dispatch_at_once(Command::Buy(purchase), move |saved| {
            if saved {
                self.edit_draft(|draft| *draft = draft.after_buy());
            }
        });
    }

    /// Keeps what is typed on Decide as a thing that was passed by, and empties the form.
    pub fn pass_by(self) {
        if self.saving.get_untracked() {
            return;
        }
        let now = clock::now();
        let draft = self.drafts.with_untracked(|drafts| drafts.decide.clone());
        let thing = view::left_behind(&self.inner.book.borrow(), &draft, now);
        let Some(thing) = thing else { return };
        self.type_draft(|draft| draft.go(Field::Ask));
        self.dispatch_at_once(Command::PassBy(thing), move |saved| {
            if saved {
                self.edit_draft(|draft| *draft = draft.after_buy());
            }
        });
    }

    /// Undoes one save of this device.
    pub fn undo(self, save: u64) {
        self.run(
            Box::pin(async move {
                let read_at = self.inner.book.borrow().vector.clone();
                let changes = self.changes_of(save).await?;
                let history = self.history_of(&changes).await?;
                let plan = move |state: &State| {
                    // Another tab may have had the last word since the history was read.
                    if state.vector == read_at {
                        undo(&changes, &history)
                    } else {
                        Err(Refusal::MovedOn)
                    }
                };
                self.saved(&plan).await
            }),
            Box::new(move |undone| {
                if undone {
                    self.lay_again(save);
                }
            }),
        );
    }

    fn run(self, task: Task, then: Box<dyn FnOnce(bool)>) {
        // Detached: a screen that goes away must not drop a save half-way. It sets out before what the page shows meanwhile.
        spawn_local(async move {
            let result = task.await;
            if result.is_ok() {
                self.acknowledge();
                clock::turn().await;
            }
            self.saving.set(false);
            match result {
                Ok(saved) => {
                    self.publish(&saved);
                    self.notice.update(|notice| {
                        // Only "nothing is kept" stays true after a save.
                        if self.keeping.get_untracked() == Keeping::Disk {
                            *notice = doubt::is_raised().then(Notice::not_safe);
                        }
                    });
                    then(true);
                }
                Err(why) => {
                    self.notice.set(Some(Notice::unsaved(&why)));
                    then(false);
                }
            }
        });
        self.saving.set(true);
    }

    pub(super) async fn saved(self, plan: &Plan<'_>) -> Result<Saved, Unsaved> {
        let inner = self.inner;
        if self.keeping.get_untracked() == Keeping::Reading {
            return Err(Fault::ReadOnly.into());
        }
        if inner.db.borrow().is_none() {
            return in_memory(inner, plan);
        }
        let at = clock::now();
        // After a fault of the storage only once all is written anew.
        self.made_safe().await?;
        match self.saved_once(plan, at).await {
            Err(Unsaved::Fault(Fault::Lost(why))) => {
                leptos::logging::warn!("the connection was lost: {why}");
                // Some phones cut the connection in the background. Once more, with a new one.
                if doubt::is_raised() {
                    self.made_safe().await?;
                } else {
                    inner.db.replace(Some(Rc::new(Db::open().await?)));
                }
                self.saved_once(plan, at).await
            }
            result => result,
        }
    }

    async fn saved_once(self, plan: &Plan<'_>, at: At) -> Result<Saved, Unsaved> {
        let inner = self.inner;
        let Some(db) = inner.db.borrow().clone() else {
            return Err(Fault::Absent.into());
        };
        let is_whole = self.all_read.get_untracked();
        let second = inner.second.borrow().clone();
        let alone = match &second {
            Some(_) => second::alone().await,
            None => None,
        };
        let _shared = match &alone {
            Some(_) => None,
            None => Some(lock::shared().await),
        };
        let saved = save::save(&db, &inner.book, plan, at, is_whole).await?;
        let Some(second) = second.filter(|_| !cfg!(feature = "publish-first")) else {
            return Ok(saved);
        };
        let (changes, vector) = (saved.changes.clone(), inner.book.borrow().vector.clone());
        if second.waits() {
            if !second::add(second, changes, vector).await {
                // It is where nothing can be trusted: it is called saved once all is written anew.
                doubt::raise();
            }
        } else {
            // Not waited for: the book has it. No other save begins before it is there too, in any tab.
            spawn_local(async move {
                clock::turn().await;
                if !second::add(second, changes, vector).await {
                    // The next start makes the two agree again, or all is written anew before that.
                    inner.second.take();
                }
                drop(alone);
            });
        }
        Ok(saved)
    }

    pub(super) fn publish(self, saved: &Saved) {
        let inner = self.inner;
        #[cfg(feature = "publish-first")]
        write_late(inner, saved);
        let first = inner.session.borrow().is_empty();
        inner
            .session
            .borrow_mut()
            .extend(saved.changes.iter().cloned());
        self.bump(saved.touched);
        self.done
            .set(describe(&inner.book.borrow(), &saved.changes));
        if first && self.keeping.get_untracked() == Keeping::Disk {
            crate::shell::device::ask_to_persist();
        }
    }

    /// Says that a save is on the disk, on the page and to other tabs. What it changed is drawn after that.
    pub(super) fn acknowledge(self) {
        if self.keeping.get_untracked() != Keeping::Disk {
            return;
        }
        self.mark_saved();
        if let Some(tabs) = &*self.inner.tabs.borrow() {
            tabs.tell(self.inner.book.borrow().head());
        }
    }

    /// The changes of one save.
    async fn changes_of(self, save: u64) -> Result<Vec<Change>, Fault> {
        let inner = self.inner;
        let db = inner.db.borrow().clone();
        let me = inner.book.borrow().me;
        let mut changes = match db {
            Some(db) => {
                own(
                    &db,
                    Key {
                        device: me,
                        seq: save,
                    },
                    save + LONGEST_SAVE,
                )
                .await?
            }
            None => inner.session.borrow().clone(),
        };
        changes.retain(|change| change.save == save);
        Ok(changes)
    }

    /// All changes of the records that these touch.
    pub(super) async fn history_of(self, changes: &[Change]) -> Result<Vec<Change>, Fault> {
        let inner = self.inner;
        let Some(db) = inner.db.borrow().clone() else {
            return Ok(inner.session.borrow().clone());
        };
        // Not while a file is being brought in: what is laid beside would be read along.
        let _held = lock::shared().await;
        let mut history = Vec::new();
        for change in changes {
            history.extend(save::history(&db, &change.record()).await?);
        }
        Ok(history)
    }
}

/// What a save did, as far as it can be said yet.
fn describe(state: &State, changes: &[Change]) -> Option<Done> {
    match late::late().get_untracked() {
        Late::Here(further) => (further.describe)(state, changes),
        Late::Coming | Late::Missing => view::briefly(state, changes),
    }
}

/// Decides in the context of this device: its clock, and its chance.
pub(super) fn in_context<R>(decide: &mut dyn FnMut(&mut Context<'_>) -> R) -> R {
    let mut chance = || clock::chance();
    decide(&mut Context {
        at: clock::now(),
        chance: &mut chance,
    })
}

fn in_context_or_none(state: &State, command: &Command) -> Option<Result<Vec<Edits>, Refusal>> {
    in_context(&mut |context| state.decide_at_once(command, context))
}

/// The most changes that one save writes, with room to spare.
const LONGEST_SAVE: u64 = 1_000;

/// Own changes from a key on, below a number.
pub(super) async fn own(db: &Db, from: Key, below: u64) -> Result<Vec<Change>, Fault> {
    let to = Key {
        seq: below.min(Key::LAST_SEQ),
        ..from
    }
    .to_string();
    let mut changes = Vec::new();
    db.each(crate::shell::db::CHANGES, &from.to_string(), &to, |row| {
        let line = crate::shell::db::text(row, "t")
            .ok_or_else(|| Fault::Damaged("a change without its text".to_owned()))?;
        changes.push(Change::from_line(&line).map_err(|error| Fault::Damaged(error.to_string()))?);
        Ok(())
    })
    .await?;
    Ok(changes)
}

/// Without storage a save lives as long as the page.
fn in_memory(inner: &Inner, plan: &Plan<'_>) -> Result<Saved, Unsaved> {
    let edits: Result<Vec<Edits>, Refusal> = plan(&inner.book.borrow());
    let changes = inner
        .book
        .borrow()
        .stamp(edits.map_err(Unsaved::Refused)?, clock::now());
    let touched = save::publish(&inner.book, &changes);
    Ok(Saved { changes, touched })
}

#[cfg(feature = "publish-first")]
fn write_late(inner: &'static Inner, saved: &Saved) {
    let changes = saved.changes.clone();
    spawn_local(async move {
        let Some(db) = inner.db.borrow().clone() else {
            return;
        };
        if let Err(fault) = save::write_late(&db, &inner.book, &changes).await {
            leptos::logging::error!("{fault}");
        }
    });
}
