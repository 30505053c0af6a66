//! Files that go out: the book or what changed in it, and its pictures, in parts, sealed where the trader wants it. Made one after the
//! other, so that memory holds one part at the most; the browser keeps what is done.

use super::bring;
use super::db::{BLOBS, CHANGES, Db, text};
use super::fault::Fault;
use super::lock;
use super::picture::KIND;
use super::sealed::{Passphrase, Sealer, Unopened};
use haulwren_core::change::{Change, Vector};
use haulwren_core::exchange::{BookWriter, Header, Part, PhotoHeader, PhotoWriter, part_name};
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag};

/// A file that is ready to go.
#[derive(Clone)]
pub struct Written {
    /// What it is called.
    pub name: String,
    /// What it holds.
    pub blob: Blob,
    /// How many of this device's own changes it knows; none in files of pictures.
    pub head: Option<u64>,
    /// How many changes of the book could not be had any more, and are not in it.
    pub lacks: u64,
}

/// Why files were not made.
#[derive(Debug)]
pub enum Unwritten {
    /// The storage did not give what is in it.
    Fault(Fault),
    /// It gave so many changes less than it claims to have.
    Short(u64),
    /// They could not be sealed.
    Unsealed(Unopened),
    /// The browser did not take a file.
    Browser(JsValue),
}

impl From<Fault> for Unwritten {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl From<Unopened> for Unwritten {
    fn from(why: Unopened) -> Self {
        Self::Unsealed(why)
    }
}

impl From<JsValue> for Unwritten {
    fn from(error: JsValue) -> Self {
        Self::Browser(error)
    }
}

/// Makes files of what comes, part by part.
pub struct Writing<'a> {
    passphrase: Option<&'a Passphrase>,
    parts: Vec<Blob>,
    head: Option<u64>,
    lacks: u64,
}

impl<'a> Writing<'a> {
    /// Of files that are sealed by a passphrase, or not.
    pub fn new(passphrase: Option<&'a Passphrase>) -> Self {
        Self {
            passphrase,
            parts: Vec::new(),
            head: None,
            lacks: 0,
        }
    }

    /// Writes the book from the storage, above what the reader has. Tells how many changes are done, of all.
    pub async fn book(
        &mut self,
        db: &Db,
        header: Header,
        have: Vector,
        progress: &dyn Fn(usize, usize),
    ) -> Result<(), Unwritten> {
        // No import is laid in or taken out meanwhile. What is saved meanwhile does not go along.
        let _shared = lock::shared().await;
        // What could not even be cleared away is no part of the book.
        let beside = bring::laid_beside(db).await?;
        let all = db.count(CHANGES).await? as usize;
        let book = format!("book/{}", header.book);
        self.head = Some(header.have.of(header.sender));
        let mut writer = BookWriter::new(header, have);
        // The first part tells the reader whose book it is.
        for line in db.history(&book).await? {
            self.line(&mut writer, &line).await?;
        }
        let (mut from, mut done) = (String::new(), 0);
        loop {
            let (rows, is_full) = db.by_stamp(&from).await?;
            for row in &rows {
                if text(row, "i").is_some_and(|number| beside.contains(&number)) {
                    continue;
                }
                let line = text(row, "t").unwrap_or_default();
                self.line(&mut writer, &line).await?;
            }
            let last = rows.last().and_then(|row| text(row, "s"));
            match last.filter(|_| is_full) {
                Some(last) if last == from => {
                    return Err(Fault::Damaged("one stamp, many changes".to_owned()).into());
                }
                Some(last) => from = last,
                None => break,
            }
            done += rows.len();
            progress(done, all);
        }
        // Counted before it is called a copy.
        match writer.lacks() {
            0 => self.part(writer.finish()).await,
            lacks => Err(Unwritten::Short(lacks)),
        }
    }

    /// Writes changes that are at hand, of a book that goes as far as the header says, when the storage does not give all of it.
    pub async fn at_hand(&mut self, header: Header, changes: &[Change]) -> Result<(), Unwritten> {
        let have: Vector = changes.iter().map(|change| change.key).collect();
        let claimed: u64 = header.have.iter().map(|key| key.seq).sum();
        self.lacks = claimed.saturating_sub(changes.len() as u64);
        let header = Header { have, ..header };
        self.head = Some(header.have.of(header.sender));
        let mut writer = BookWriter::new(header, Vector::default());
        for change in changes {
            self.line(&mut writer, &change.line()).await?;
        }
        self.part(writer.finish()).await
    }

    async fn line(&mut self, writer: &mut BookWriter, line: &str) -> Result<(), Unwritten> {
        for part in writer
            .line(line)
            .map_err(|error| Fault::Damaged(error.to_string()))?
        {
            self.part(part).await?;
        }
        Ok(())
    }

    /// Writes those of some pictures that are on this device. Tells how many are done, of all.
    pub async fn photos(
        &mut self,
        db: &Db,
        header: PhotoHeader,
        named: &[String],
        progress: &dyn Fn(usize, usize),
    ) -> Result<(), Unwritten> {
        let mut writer = PhotoWriter::new(header);
        for (done, name) in named.iter().enumerate() {
            if let Some(bytes) = db.bytes(BLOBS, name).await?
                && let Some(full) = writer.photo(name, KIND, &bytes.to_vec())
            {
                self.part(full).await?;
            }
            progress(done + 1, named.len());
        }
        match writer.finish() {
            Some(last) => self.part(last).await,
            None => Ok(()),
        }
    }

    async fn part(&mut self, part: Part) -> Result<(), Unwritten> {
        let mut pieces = Pieces::default();
        match self.passphrase {
            None => {
                for piece in part.pieces {
                    pieces.add(&Uint8Array::from(piece.as_slice()))?;
                }
            }
            Some(passphrase) => {
                let (mut sealer, first) = Sealer::begin(passphrase).await?;
                pieces.add(&first.into())?;
                for piece in part.pieces {
                    for line in sealer.push(&piece).await? {
                        pieces.add(&line.into())?;
                    }
                }
                pieces.add(&sealer.finish().await?.into())?;
            }
        }
        self.parts.push(pieces.whole()?);
        Ok(())
    }

    /// The files with their names.
    pub fn named(self, what: &str, day: &str) -> Vec<Written> {
        let (of, head, lacks) = (self.parts.len(), self.head, self.lacks);
        let named = self.parts.into_iter().zip(1..).map(|(blob, number)| {
            let name = part_name(what, day, number, of);
            Written {
                name,
                blob,
                head,
                lacks,
            }
        });
        named.collect()
    }
}

/// Pieces of a file, each handed to the browser at once.
#[derive(Default)]
struct Pieces(Array);

impl Pieces {
    fn add(&mut self, piece: &JsValue) -> Result<(), JsValue> {
        self.0.push(&blob(&Array::of1(piece))?.into());
        Ok(())
    }

    fn whole(self) -> Result<Blob, JsValue> {
        blob(&self.0)
    }
}

fn blob(pieces: &Array) -> Result<Blob, JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type("text/plain;charset=utf-8");
    // Takes bytes, texts and blobs alike.
    Blob::new_with_blob_sequence_and_options(pieces.unchecked_ref(), &options)
}
