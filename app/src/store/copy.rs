//! A copy of the book as a file: the whole of it from the storage, or this session's changes when the storage fails.

use super::Store;
use crate::notice::Notice;
use crate::shell::bring;
use crate::shell::clock;
use crate::shell::db::{CHANGES, text};
use crate::shell::fault::Fault;
use crate::shell::files::{self, Left};
use crate::shell::lock;
use crate::shell::scope;
use haulwren_core::exchange::{Header, write_book};

impl Store {
    /// Writes the book to a file and hands it out. Says how it left, or shows a notice.
    pub async fn save_copy(self) -> Option<Left> {
        if scope::is_sample() {
            self.notice.set(Some(Notice::copy_failed(
                "sample data never goes into a file",
            )));
            return None;
        }
        let Some((name, text)) = self.book_file().await else {
            self.notice
                .set(Some(Notice::copy_failed("there is no book yet")));
            return None;
        };
        match files::hand_out(&name, &text, "text/plain").await {
            Ok(left) => Some(left),
            Err(error) => {
                self.notice
                    .set(Some(Notice::copy_failed(&format!("{error:?}"))));
                None
            }
        }
    }

    /// The book file's name and text; none before the book has begun.
    async fn book_file(self) -> Option<(String, String)> {
        let inner = self.inner;
        let lines = match self.stored_lines().await {
            Ok(lines) => lines,
            Err(fault) => {
                leptos::logging::warn!("the copy holds this session only: {fault}");
                inner
                    .session
                    .borrow()
                    .iter()
                    .map(haulwren_core::change::Change::line)
                    .collect()
            }
        };
        let book = inner.book.borrow();
        let (id, currency) = book.book()?;
        let header = Header::new(id, currency, book.me, book.vector.clone());
        let day = clock::now()
            .day()
            .map(|day| day.to_string())
            .unwrap_or_default();
        Some((
            format!("haulwren-book-{day}.txt"),
            write_book(&header, lines.iter().map(String::as_str)),
        ))
    }

    async fn stored_lines(self) -> Result<Vec<String>, Fault> {
        let db = self.inner.db.borrow().clone().ok_or(Fault::Absent)?;
        // While a file is being brought in, the copy waits: what is laid beside is no part of the book.
        let _held = lock::shared().await;
        let beside = bring::laid_beside(&db).await?;
        let mut lines = Vec::new();
        db.each(CHANGES, "", "~", |row| {
            if text(row, "i").is_some_and(|number| beside.contains(&number)) {
                return Ok(());
            }
            lines.push(
                text(row, "t")
                    .ok_or_else(|| Fault::Damaged("a change without its text".to_owned()))?,
            );
            Ok(())
        })
        .await?;
        Ok(lines)
    }
}
