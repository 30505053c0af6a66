//! Opening a book that does not read back: mended from its history, or else open for reading only.

use super::open::MENDED;
use super::{Keeping, Phase, Store};
use crate::notice::Notice;
use crate::shell::db::Db;
use crate::shell::fault::Fault;
use crate::shell::page;
use crate::shell::recover::{self, Mended};
use haulwren_core::book::{State, Touched};
use haulwren_core::exchange::without_holes;
use leptos::task::spawn_local;

impl Store {
    /// Mends what is stored and begins anew, or opens what reads back for reading only.
    pub fn mend(self, fault: Fault) {
        spawn_local(async move {
            leptos::logging::warn!("{fault}");
            if page::is_noted(MENDED) {
                page::forget_note(MENDED);
                return self.go_on_without(&fault);
            }
            match self.mended().await {
                Ok(mended) if mended.damaged.is_empty() => {
                    if page::note_for_next(MENDED) {
                        page::reload();
                    } else {
                        self.go_on_without(&fault);
                    }
                }
                Ok(mended) => self.read_only(mended),
                Err(worse) => self.go_on_without(&worse),
            }
        });
    }

    async fn mended(self) -> Result<Mended, Fault> {
        let open = self.inner.db.borrow().clone();
        let second = self.inner.second.borrow().clone();
        match open {
            Some(db) => recover::mend(&db, second.as_deref()).await,
            None => recover::mend(&Db::open().await?, second.as_deref()).await,
        }
    }

    fn read_only(self, mended: Mended) {
        let inner = self.inner;
        let damaged = match &mended.damaged[..] {
            [one] => format!("Change {one}"),
            several => format!("{} changes, the first {},", several.len(), several[0]),
        };
        inner
            .book
            .replace(State::from_changes(mended.me, &mended.changes));
        // What a copy holds: no reader takes a file with holes.
        inner.session.replace(without_holes(mended.changes));
        inner.db.take();
        self.keeping.set(Keeping::Reading);
        self.notice.set(Some(Notice::only_reading(&damaged)));
        self.bump(Touched::ALL);
        self.all_read.set(true);
        self.phase.set(Phase::Ready);
    }

    /// Has the next start fold every record anew from its history.
    pub fn build_anew(self) {
        spawn_local(async move {
            let db = self.inner.db.borrow().clone();
            let noted = match db {
                Some(db) => recover::fold_at_next_start(&db).await,
                None => Err(Fault::ReadOnly),
            };
            match noted {
                Ok(()) => page::reload(),
                Err(fault) => {
                    let notice = Notice::storage("The book was not built anew.", &fault);
                    self.notice.set(Some(notice));
                }
            }
        });
    }
}
