//! Pictures: shrunk, put into the storage, then said in the book.

use super::Store;
use crate::notice::Notice;
use crate::shell::picture::{self, Address, Unkept};
use haulwren_core::book::ThingCommand;
use haulwren_core::change::Change;
use haulwren_core::id::{PhotoId, ThingId};
use leptos::task::spawn_local;
use web_sys::Blob;

impl Store {
    /// Adds a picture of a thing. The bytes are on the disk before the book names them; bytes that nothing names do no harm.
    pub fn add_photo(self, thing: ThingId, file: Blob) {
        self.saving.set(true);
        spawn_local(async move {
            let safe = self.made_safe().await;
            let db = self.inner.db.borrow().clone();
            let kept = match (safe, db) {
                (Ok(()), Some(db)) => picture::keep(&db, &file).await,
                (Err(fault), _) => Err(Unkept::Fault(fault)),
                (_, None) => Err(Unkept::NoStorage),
            };
            self.saving.set(false);
            match kept {
                Ok(blob) => self.dispatch(ThingCommand::AddPhoto { thing, blob }.into(), |_| {}),
                Err(why) => self.notice.set(Some(Notice::no_picture(&why))),
            }
        });
    }

    /// Where a picture is that is not here: on the device that said it, by its name.
    pub async fn photo_is_on(self, photo: PhotoId) -> String {
        const ELSEWHERE: &str = "another device";
        let Some(db) = self.inner.db.borrow().clone() else {
            return ELSEWHERE.to_owned();
        };
        let lines = db.history(&photo.record().to_string()).await;
        let changes = lines.unwrap_or_default();
        let changes = changes
            .iter()
            .filter_map(|line| Change::from_line(line).ok());
        let said = changes.filter(|change| change.set.contains_key("blob"));
        let first = said.min_by_key(|change| change.stamp);
        let book = self.inner.book.borrow();
        match first.map(|change| change.device()) {
            // Its bytes were lost here, or it came back without them.
            Some(device) if device == book.me => "no device that is known".to_owned(),
            Some(device) => book.name_of(device),
            None => ELSEWHERE.to_owned(),
        }
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
