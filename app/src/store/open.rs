//! From a blank page to a book that is open.

use super::doubt::{AGAIN_MS, Trust};
use super::{Keeping, Phase, Store};
use crate::late;
use crate::notice::Notice;
use crate::shell::db::Db;
use crate::shell::drafts::Drafts;
use crate::shell::fault::Fault;
use crate::shell::second::{self, Agreed};
use crate::shell::tabs::Tabs;
use crate::shell::{bring, doubt, page, save, scope, start};
use haulwren_core::book::{Group, Touched};
use leptos::task::spawn_local;
use std::rc::Rc;

/// The note of a load that has just mended the book: a second try would come to the same.
pub(super) const MENDED: &str = "mended";

impl Store {
    /// Opens the book. Decide works as soon as its setup is read; the rest follows.
    pub fn open(self) {
        Self::hear_of_faults();
        spawn_local(async move {
            if let Err(fault) = self.opened().await {
                self.mend_or_go_on(fault).await;
            }
            leptos::task::tick().await;
            page::mark("ready", "1");
        });
        self.write_drafts_when_hidden();
    }

    async fn opened(self) -> Result<(), Fault> {
        let db = Rc::new(Db::open().await?);
        let inner = self.inner;
        // First, so that the second copy gets nothing of a file that was only laid beside.
        bring::settle(&db, &|done, total| {
            self.phase.set(Phase::Opening(Some((done, total))));
        })
        .await?;
        self.open_second(&db).await;
        let state = start::begin(&db, |done, total| {
            self.phase.set(Phase::Opening(Some((done, total))));
        })
        .await?;
        inner.book.replace(state);
        inner.db.replace(Some(db.clone()));
        if self.trust.get_untracked() == Trust::Failed {
            self.mend_soon(AGAIN_MS);
        }
        self.drafts.set(Drafts::read(&db).await);
        inner
            .tabs
            .replace(Some(Tabs::join(move || self.hear_other_tab())));
        if scope::is_sample() {
            self.lay_out_sample().await;
        }
        let is_mended = page::is_noted(MENDED);
        if is_mended {
            self.notice.set(Some(Notice::mended()));
        }
        self.bump(Touched::only(Group::Setup));
        self.mark_saved();
        self.phase.set(Phase::Ready);
        spawn_local(async move {
            match start::rest(&db, &inner.book).await {
                Ok(()) => {
                    if is_mended {
                        page::forget_note(MENDED);
                    }
                    self.bump(Touched::ALL);
                    self.all_read.set(true);
                    page::mark("whole", "1");
                }
                Err(fault) => self.mend_or_go_on(fault).await,
            }
        });
        Ok(())
    }

    /// What does not read back is mended where it can be; that comes late, since it is hardly ever needed.
    async fn mend_or_go_on(self, fault: Fault) {
        if matches!(fault, Fault::Damaged(_))
            && let Some(further) = late::fetched().await
        {
            return (further.mend)(self, fault);
        }
        self.go_on_without(&fault);
    }

    /// The second copy may give back a book that the browser threw away.
    async fn open_second(self, db: &Rc<Db>) {
        // Sample data needs no guard.
        if scope::is_sample() {
            return;
        }
        if let Some((second, agreed, trust)) = second::join(db).await {
            self.inner.second.replace(Some(second));
            self.trust.set(match trust {
                second::Trust::Whole => Trust::Whole,
                second::Trust::Anew => Trust::Anew,
                second::Trust::Copied => Trust::Copied,
            });
            if let Agreed::Restored(changes) = agreed {
                self.notice.set(Some(Notice::restored(changes)));
            }
        }
        // The storage failed under the page before this one.
        if doubt::is_raised() {
            self.trust.set(Trust::Failed);
            if let Err(fault) = self.made_safe().await {
                leptos::logging::warn!("nothing could be written anew yet: {fault}");
            }
        }
    }

    /// No storage: the app still weighs things up, says that nothing is kept, and hands out a copy. A book that is there and does not
    /// open is another matter: nothing may be written beside it.
    pub(super) fn go_on_without(self, fault: &Fault) {
        leptos::logging::warn!("{fault}");
        match fault {
            Fault::Absent | Fault::Blocked(_) | Fault::Full => {
                self.keeping.set(Keeping::Memory);
                self.notice.set(Some(Notice::nothing_kept(fault)));
                self.all_read.set(true);
                self.phase.set(Phase::Ready);
            }
            fault => self.phase.set(Phase::Failed(Notice::cannot_open(fault))),
        }
    }

    /// Another tab has saved: read on.
    fn hear_other_tab(self) {
        spawn_local(async move {
            let inner = self.inner;
            let Some(db) = inner.db.borrow().clone() else {
                return;
            };
            match save::catch_up(&db, &inner.book).await {
                Ok(touched) => {
                    self.bump(touched);
                    self.mark_saved();
                }
                // The next save catches up, and says so when it cannot.
                Err(fault) => leptos::logging::warn!("another tab's save is not read yet: {fault}"),
            }
        });
    }

    /// Says on the page how far this device's saves are on the disk. Not while what is there can't be trusted.
    pub(super) fn mark_saved(self) {
        if doubt::is_raised() {
            return;
        }
        let head = self.inner.book.borrow().head();
        page::mark("saved", &head.to_string());
    }
}
