//! A file that comes in, as its plain bytes piece by piece, whether it is sealed or not.

use super::bring::{Progress, Unread};
use super::sealed::{self, FileKey, Passphrase};
use haulwren_core::exchange::FileKind;
use haulwren_core::exchange::sealed::{Lock, Sealed, SealedReader, Slice};
use js_sys::Uint8Array;
use std::collections::VecDeque;
use std::rc::Rc;
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

/// Bytes of a file that are read at once.
const PIECE: u64 = 1 << 20;

/// So much holds any first line of ours.
const FIRST_LINE: u64 = 16 << 10;

/// A file that opens.
#[derive(Clone)]
pub struct Source {
    file: Blob,
    /// What opens its slices, when it is sealed.
    key: Option<FileKey>,
}

/// A sealed file before its passphrase is known.
#[derive(Clone)]
pub struct Locked {
    file: Blob,
    lock: Rc<Lock>,
}

/// A file as it was chosen.
pub enum Chosen {
    /// Not sealed.
    Plain(Source),
    /// Sealed.
    Locked(Locked),
}

/// Looks at how a file begins.
pub async fn look_at(file: Blob) -> Result<Chosen, Unread> {
    let first = piece(&file, 0, FIRST_LINE).await?;
    if FileKind::of(&first) != FileKind::Sealed {
        return Ok(Chosen::Plain(Source { file, key: None }));
    }
    let mut reader = SealedReader::default();
    let mut found = reader.push(&first).map_err(sealed::Unopened::from)?;
    if found.is_empty() {
        // It ends within the first line, or that has no end.
        found = reader.finish().map_err(sealed::Unopened::from)?;
    }
    match found.into_iter().next() {
        Some(Sealed::Lock(lock)) => {
            let lock = Rc::new(lock);
            Ok(Chosen::Locked(Locked { file, lock }))
        }
        _ => Ok(Chosen::Plain(Source { file, key: None })),
    }
}

impl Locked {
    /// The file opened by its passphrase.
    pub async fn open(&self, passphrase: &Passphrase) -> Result<Source, Unread> {
        let key = sealed::unlock(&self.lock, passphrase).await?;
        Ok(Source {
            file: self.file.clone(),
            key: Some(key),
        })
    }
}

impl Source {
    /// What the plain file is.
    pub async fn kind(&self) -> Result<FileKind, Unread> {
        let first = self.pieces().next(&|_, _| {}).await?;
        Ok(FileKind::of(&first.unwrap_or_default()))
    }

    /// Its bytes from the start.
    pub fn pieces(&self) -> Pieces {
        Pieces {
            source: self.clone(),
            from: 0,
            sealed: self.key.as_ref().map(|_| SealedReader::default()),
            waiting: VecDeque::new(),
        }
    }
}

/// The plain bytes of a file that is being read.
pub struct Pieces {
    source: Source,
    from: u64,
    sealed: Option<SealedReader>,
    /// Slices that were read and not opened.
    waiting: VecDeque<Slice>,
}

impl Pieces {
    /// The next bytes; `None` at the end. Tells how far it is, in kilobytes of the file.
    pub async fn next(&mut self, progress: Progress<'_>) -> Result<Option<Vec<u8>>, Unread> {
        loop {
            if let (Some(slice), Some(key)) = (self.waiting.pop_front(), &self.source.key) {
                return Ok(Some(sealed::open(key, &slice).await?));
            }
            let all = size(&self.source.file);
            if self.from >= all {
                let Some(reader) = self.sealed.take() else {
                    return Ok(None);
                };
                let last = reader.finish().map_err(sealed::Unopened::from)?;
                self.wait(last);
                continue;
            }
            let to = (self.from + PIECE).min(all);
            let bytes = piece(&self.source.file, self.from, to).await?;
            self.from = to;
            let kilobytes = |bytes: u64| usize::try_from(bytes / 1_000).unwrap_or(usize::MAX);
            progress(kilobytes(to), kilobytes(all));
            let Some(reader) = &mut self.sealed else {
                return Ok(Some(bytes));
            };
            let found = reader.push(&bytes).map_err(sealed::Unopened::from)?;
            self.wait(found);
        }
    }

    fn wait(&mut self, found: Vec<Sealed>) {
        for sealed in found {
            if let Sealed::Slice(slice) = sealed {
                self.waiting.push_back(slice);
            }
        }
    }
}

fn size(file: &Blob) -> u64 {
    // Sizes of files fit 2^53.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let size = file.size() as u64;
    size
}

async fn piece(file: &Blob, from: u64, to: u64) -> Result<Vec<u8>, Unread> {
    #[allow(clippy::cast_precision_loss)]
    let piece = file.slice_with_f64_and_f64(from as f64, to as f64);
    let piece = piece.map_err(|_| Unread::NoFile)?;
    let buffer = JsFuture::from(piece.array_buffer()).await;
    Ok(Uint8Array::new(&buffer.map_err(|_| Unread::NoFile)?).to_vec())
}
