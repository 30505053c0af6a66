//! Pictures: shrunk, put into the storage, then said in the book.

use super::Store;
use crate::notice::Notice;
use crate::shell::picture::{self, Address, Unkept};
use haulwren_core::book::ThingCommand;
use haulwren_core::id::ThingId;
use leptos::task::spawn_local;
use web_sys::Blob;

impl Store {
    /// Adds a picture of a thing. The bytes are on the disk before the book names them; bytes that nothing names do no harm.
    pub fn add_photo(self, thing: ThingId, file: Blob) {
        self.saving.set(true);
        spawn_local(async move {
            let db = self.inner.db.borrow().clone();
            let kept = match db {
                Some(db) => picture::keep(&db, &file).await,
                None => Err(Unkept::NoStorage),
            };
            self.saving.set(false);
            match kept {
                Ok(blob) => self.dispatch(ThingCommand::AddPhoto { thing, blob }.into(), |_| {}),
                Err(why) => self.notice.set(Some(Notice::no_picture(&why))),
            }
        });
    }

    /// A picture as something to show; `None` when its bytes are not on this device, or can't be read.
    pub async fn photo(self, blob: &str) -> Option<Address> {
        let db = self.inner.db.borrow().clone()?;
        match picture::show(&db, blob).await {
            Ok(address) => address,
            Err(fault) => {
                leptos::logging::warn!("a picture was not read: {fault}");
                None
            }
        }
    }
}
