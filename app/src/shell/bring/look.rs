//! Looking into a file: read and checked whole, held against the book, and what it would do worked out. Nothing is changed.

use super::{BATCH, Progress, Unread};
use crate::shell::db::{CHANGES, Db, text};
use crate::shell::fault::Fault;
use crate::shell::source::Source;
use crate::shell::{lock, save};
use futures::future::join_all;
use haulwren_core::book::State;
use haulwren_core::change::{Key, Vector};
use haulwren_core::exchange::{Against, BookReader, Incoming, Line, Meeting, ReadError};
use haulwren_core::id::DeviceCode;
use haulwren_core::view::Weighed;
use std::cell::RefCell;
use std::rc::Rc;

/// A file that was read, and how far the book went when it was held against it.
#[derive(Clone)]
pub struct Found {
    /// What it brings.
    pub incoming: Rc<Incoming>,
    /// What that would do to the book.
    pub weighed: Rc<Weighed>,
    pub(super) at: Vector,
}

/// Reads a file to its end and holds it against the book. Nothing is changed.
pub async fn read(
    db: &Db,
    book: &RefCell<State>,
    source: &Source,
    progress: Progress<'_>,
) -> Result<Found, Unread> {
    let against = Against::of(&book.borrow());
    let at = against.vector.clone();
    let mut reader = BookReader::new(against);
    let mut pieces = source.pieces();
    while let Some(bytes) = pieces.next(progress).await? {
        reader.push(&bytes)?;
    }
    let incoming = reader.finish()?;
    if incoming.already_known > 0 {
        let me = book.borrow().me;
        compare(db, me, &incoming).await?;
    }
    let weighed = weigh(db, book, &incoming).await?;
    Ok(Found {
        incoming: Rc::new(incoming),
        weighed: Rc::new(weighed),
        at,
    })
}

/// Works out, record by record, what the file would do.
async fn weigh(db: &Db, book: &RefCell<State>, incoming: &Incoming) -> Result<Weighed, Fault> {
    let mut lines: Vec<&Line> = incoming.changes.iter().collect();
    lines.sort_unstable_by(|one, other| (&one.record, one.key).cmp(&(&other.record, other.key)));
    let of_records = lines.chunk_by(|one, next| one.record == next.record);
    let of_records: Vec<&[&Line]> = of_records.collect();
    let mut weighed = Weighed::default();
    // Not while another tab brings something in: what is laid beside would be read along.
    let _held = lock::shared().await;
    for batch in of_records.chunks(BATCH) {
        let had = match incoming.meeting {
            // Nothing is here.
            Meeting::Fresh => batch.iter().map(|_| Ok(Vec::new())).collect(),
            Meeting::Same | Meeting::Two => {
                join_all(batch.iter().map(|of| save::history(db, &of[0].record))).await
            }
        };
        for (of_record, had) in batch.iter().zip(had) {
            let new = of_record.iter().map(|line| line.change()).collect();
            weighed.add(&book.borrow(), &of_record[0].record, new, had?);
        }
    }
    Ok(weighed)
}

/// What is stored must say what the file says under the same keys.
async fn compare(db: &Db, me: DeviceCode, incoming: &Incoming) -> Result<(), Unread> {
    let mut differs = None;
    db.each(CHANGES, "", "~", |row| {
        let stored = text(row, "k").zip(text(row, "t"));
        if let Some((key, line)) = stored
            && let Ok(key) = key.parse::<Key>()
            && differs.is_none()
        {
            differs = incoming.compare(key, &line).err();
        }
        Ok(())
    })
    .await?;
    // By the order of the keys the first is found first.
    Err(match differs {
        None => return Ok(()),
        Some(ReadError::OtherWords { line, device, seq })
            if device == me && !incoming.reaches_before(Key { device, seq }) =>
        {
            ReadError::PartedBefore { line, device, seq }
        }
        Some(error) => error,
    }
    .into())
}
