//! Pictures out of a photo part into the storage. Each is kept by its digest, which is checked, and only such as the book names: a file
//! that breaks off half-way has done no harm.

use super::bring::{Progress, Unread};
use super::db::{BLOBS, Db};
use super::source::Source;
use haulwren_core::book::State;
use haulwren_core::exchange::{Against, PhotoReader, Picture};
use js_sys::Uint8Array;
use std::cell::RefCell;

/// A photo part that was read to its end and found whole. Nothing of it is kept yet.
#[derive(Clone)]
pub struct FoundPictures {
    source: Source,
    /// Pictures that the book names, and that are not here.
    pub new: Vec<String>,
    /// How many are here already.
    pub here: usize,
    /// How many the book does not name.
    pub unnamed: usize,
}

/// Reads a photo part to its end.
pub async fn read(
    db: &Db,
    book: &RefCell<State>,
    source: &Source,
    progress: Progress<'_>,
) -> Result<FoundPictures, Unread> {
    let mut reader = reader(book);
    let mut found = FoundPictures {
        source: source.clone(),
        new: Vec::new(),
        here: 0,
        unnamed: 0,
    };
    let named = named(&book.borrow());
    let mut pieces = source.pieces();
    while let Some(bytes) = pieces.next(progress).await? {
        for picture in reader.push(&bytes)? {
            if named.binary_search(&picture.sha256).is_err() {
                found.unnamed += 1;
            } else if found.new.contains(&picture.sha256) || db.has(BLOBS, &picture.sha256).await? {
                found.here += 1;
            } else {
                found.new.push(picture.sha256);
            }
        }
    }
    reader.finish()?;
    Ok(found)
}

/// Keeps the pictures that were found.
pub async fn take(
    db: &Db,
    book: &RefCell<State>,
    found: &FoundPictures,
    progress: Progress<'_>,
) -> Result<(), Unread> {
    let mut reader = reader(book);
    let mut pieces = found.source.pieces();
    while let Some(bytes) = pieces.next(progress).await? {
        let pictures = reader.push(&bytes)?;
        let is_new = |picture: &&Picture| found.new.contains(&picture.sha256);
        let mut new = pictures.iter().filter(is_new).peekable();
        if new.peek().is_none() {
            continue;
        }
        let transaction = db.strict(&[BLOBS])?;
        for picture in new {
            let bytes = Uint8Array::from(picture.bytes.as_slice());
            transaction.put_bytes(BLOBS, &picture.sha256, &bytes, &picture.mime)?;
        }
        transaction.complete().await?;
    }
    reader.finish()?;
    Ok(())
}

fn reader(book: &RefCell<State>) -> PhotoReader {
    PhotoReader::new(Against::of(&book.borrow()).joined)
}

/// What the book calls its pictures, each once, in their order.
pub fn named(book: &State) -> Vec<String> {
    let mut named: Vec<String> = book
        .photos()
        .filter_map(|(_, photo)| photo.blob.clone())
        .collect();
    named.sort_unstable();
    named.dedup();
    named
}
