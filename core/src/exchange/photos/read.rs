//! Reading a photo part, piece by piece.

use super::{FORMAT, MAX_LINE, MAX_PHOTO, PhotoHeader, VERSION};
use crate::change::read_line;
use crate::exchange::book_file::{hex, sha256};
use crate::exchange::lines::{Lines, without_end, without_mark};
use crate::exchange::read::{ReadError, ends};
use crate::id::BookId;
use crate::json::{Object, field};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;
use core::mem::take;
use sha2::{Digest, Sha256};

/// A picture, whole: its name is the digest of its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The SHA-256 of its bytes, in lower-case hexadecimal digits.
    pub sha256: String,
    /// Its media type.
    pub mime: String,
    /// Itself.
    pub bytes: Vec<u8>,
}

/// Reads a photo part: [`PhotoReader::push`] takes its bytes in pieces of any size, and gives the pictures that end in them, each checked
/// by its digest. That the file as a whole is whole is known once [`PhotoReader::finish`] was called.
#[derive(Debug)]
pub struct PhotoReader {
    lines: Lines,
    inside: Inside,
}

/// How far the file was read.
#[derive(Debug)]
struct Inside {
    joined: Vec<BookId>,
    line: usize,
    digest: Sha256,
    count: u64,
    header: Option<PhotoHeader>,
    /// A picture whose last line has not come, and how many have.
    begun: Option<(Picture, u64)>,
    ended: bool,
    found: Vec<Picture>,
}

impl PhotoReader {
    /// A reader of one file for a book that any of these were joined into, itself included.
    #[must_use]
    pub fn new(joined: Vec<BookId>) -> Self {
        let inside = Inside {
            joined,
            line: 0,
            digest: Sha256::new(),
            count: 0,
            header: None,
            begun: None,
            ended: false,
            found: Vec::new(),
        };
        Self {
            lines: Lines::new(MAX_LINE),
            inside,
        }
    }

    /// Takes the next bytes.
    ///
    /// # Errors
    /// Whatever is wrong with the lines that end in them. Nothing more can be read after that.
    pub fn push(&mut self, bytes: &[u8]) -> Result<Vec<Picture>, ReadError> {
        let inside = &mut self.inside;
        self.lines.push(bytes, &mut |line| match line {
            Some(line) => inside.take_line(line),
            None => Err(inside.too_long()),
        })?;
        Ok(take(&mut self.inside.found))
    }

    /// Says that the file ends here; gives its header.
    ///
    /// # Errors
    /// Whatever is wrong with it.
    pub fn finish(mut self) -> Result<PhotoHeader, ReadError> {
        if let Some(last) = self.lines.rest() {
            let taken = self.inside.take_line(without_end(&last));
            taken.map_err(|error| match error {
                // A line that does not end, and is none: the rest of it is missing.
                ReadError::BadLine { line, .. } => ReadError::CutShort { line },
                error => error,
            })?;
        }
        let line = self.inside.line;
        match self.inside.header {
            Some(header) if self.inside.ended => Ok(header),
            _ if line == 0 => Err(ReadError::Empty),
            _ => Err(ReadError::CutShort { line }),
        }
    }
}

impl Inside {
    fn too_long(&mut self) -> ReadError {
        self.line += 1;
        match self.line {
            1 => ReadError::NotABook,
            _ => self.bad("it is longer than 1 MiB"),
        }
    }

    fn take_line(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        self.line += 1;
        let line = self.line;
        if line == 1 {
            return self.header(without_mark(bytes));
        }
        if self.ended {
            // Mail programs and editors add empty lines.
            return if bytes.is_empty() {
                Ok(())
            } else {
                Err(ReadError::AfterTheEnd { line })
            };
        }
        let text = core::str::from_utf8(bytes).map_err(|_| ReadError::NotText { line })?;
        if ends::is_trailer(text) {
            return self.trailer(text);
        }
        let object = read_line(text).map_err(|error| self.bad(&ends::reason(&error)))?;
        self.digest.update(b"\n");
        self.digest.update(bytes);
        self.count += 1;
        self.piece(&object)
    }

    fn header(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        let text = core::str::from_utf8(bytes).map_err(|_| ReadError::NotABook)?;
        let object = read_line(text).map_err(|error| bad_header(&ends::reason(&error)))?;
        if object.get("format").and_then(|format| format.as_str()) != Some(FORMAT) {
            return Err(ReadError::NotABook);
        }
        let damaged = |error: serde_json::Error| bad_header(&ends::reason(&error.into()));
        let version: u64 = field(&object, "version").map_err(damaged)?;
        if version > u64::from(VERSION) {
            return Err(ReadError::Newer { version });
        }
        let header = PhotoHeader {
            book: field(&object, "book").map_err(damaged)?,
            sender: field(&object, "sender").map_err(damaged)?,
        };
        if !self.joined.contains(&header.book) {
            return Err(ReadError::OtherBook);
        }
        self.digest.update(bytes);
        self.header = Some(header);
        Ok(())
    }

    fn piece(&mut self, object: &Object) -> Result<(), ReadError> {
        let damaged = |error: serde_json::Error| ReadError::BadLine {
            line: self.line,
            reason: ends::reason(&error.into()),
        };
        let sha256: String = field(object, "sha256").map_err(damaged)?;
        let mime: String = field(object, "mime").map_err(damaged)?;
        let n: u64 = field(object, "n").map_err(damaged)?;
        let last: bool = field(object, "last").map_err(damaged)?;
        let data: String = field(object, "data").map_err(damaged)?;
        let data = BASE64.decode(data);
        let data = data.map_err(|_| self.bad("its data is not base64"))?;
        if !is_image(&mime) {
            return Err(self.bad("it is no picture"));
        }
        let (mut picture, before) = self.begun.take().unwrap_or_else(|| {
            let (sha256, mime) = (sha256.clone(), mime.clone());
            let bytes = Vec::new();
            (
                Picture {
                    sha256,
                    mime,
                    bytes,
                },
                0,
            )
        });
        if picture.sha256 != sha256 || picture.mime != mime || n != before + 1 {
            return Err(self.bad("a piece of a picture is missing, or moved"));
        }
        if picture.bytes.len() + data.len() > MAX_PHOTO {
            return Err(self.bad("the picture is larger than 8 MiB"));
        }
        picture.bytes.extend_from_slice(&data);
        if !last {
            self.begun = Some((picture, n));
            return Ok(());
        }
        if sha256 != self::sha256(&picture.bytes) {
            return Err(self.bad("the picture is not the one that it says"));
        }
        self.found.push(picture);
        Ok(())
    }

    fn trailer(&mut self, text: &str) -> Result<(), ReadError> {
        let line = self.line;
        let trailer = ends::trailer(text).map_err(|error| self.bad(&ends::reason(&error)))?;
        if self.begun.is_some() || trailer.count != self.count {
            return Err(self.bad("lines before it are missing, or are too many"));
        }
        if trailer.sha256 != hex(&self.digest.clone().finalize()) {
            return Err(ReadError::Altered { line });
        }
        self.ended = true;
        Ok(())
    }

    fn bad(&self, reason: &str) -> ReadError {
        ReadError::BadLine {
            line: self.line,
            reason: reason.to_owned(),
        }
    }
}

fn bad_header(reason: &str) -> ReadError {
    ReadError::BadHeader {
        reason: reason.to_owned(),
    }
}

/// Whether a media type is that of a picture.
fn is_image(mime: &str) -> bool {
    let rest = mime.strip_prefix("image/").unwrap_or_default();
    let is_plain =
        |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || b"+-.".contains(&byte);
    (1..=40).contains(&rest.len()) && rest.bytes().all(is_plain)
}
