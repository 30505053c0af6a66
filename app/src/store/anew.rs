//! Writing all that is known anew once the storage has failed, in a fresh place, and going on from there.

use super::doubt::Trust;
use super::{Phase, Store};
use crate::shell::db::Db;
use crate::shell::fault::Fault;
use crate::shell::second::{self, Memory};
use crate::shell::{doubt, scope};
use std::pin::Pin;
use std::rc::Rc;

/// An attempt under way.
pub type Mending = Pin<Box<dyn Future<Output = Result<(), Fault>>>>;

impl Store {
    /// Writes it. When it fails, nothing can be trusted as before.
    pub fn anew(self) -> Mending {
        Box::pin(self.written_anew())
    }

    async fn written_anew(self) -> Result<(), Fault> {
        if scope::is_sample() {
            doubt::settle();
            return Ok(());
        }
        let inner = self.inner;
        // The connection at hand may be a dead one.
        let db = Rc::new(Db::open().await?);
        let is_open = self.phase.with_untracked(|phase| *phase == Phase::Ready);
        let memory = is_open.then(|| {
            let book = inner.book.borrow();
            Memory {
                me: book.me,
                vector: book.vector.clone(),
                session: inner.session.borrow().clone(),
            }
        });
        let fresh = second::anew(&db, memory.as_ref()).await?;
        inner.db.replace(Some(db));
        inner.second.replace(Some(Rc::new(fresh)));
        doubt::settle();
        self.trust.set(Trust::Anew);
        if is_open {
            self.mark_saved();
            self.write_drafts();
        }
        // One that left meanwhile may hold all of it.
        let last = self.last_copy().get_untracked();
        if last.is_some_and(|last| last.whole && last.head >= inner.book.borrow().head()) {
            self.is_copied().await?;
        }
        // What they hold open is gone.
        if let Some(tabs) = &*inner.tabs.borrow() {
            tabs.tell_again();
        }
        Ok(())
    }

    /// A copy with all that is in the book has left.
    pub(super) async fn is_copied(self) -> Result<(), Fault> {
        if self.trust.get_untracked() != Trust::Anew {
            return Ok(());
        }
        self.trust.set(Trust::Copied);
        let (db, second) = (
            self.inner.db.borrow().clone(),
            self.inner.second.borrow().clone(),
        );
        match (db, second) {
            (Some(db), Some(second)) => second::copied(&db, &second).await,
            _ => Ok(()),
        }
    }
}
