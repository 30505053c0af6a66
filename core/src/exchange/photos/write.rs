//! Pictures, one by one, into as many files as are needed.

use super::{FORMAT, ON_A_LINE, PhotoHeader, VERSION};
use crate::exchange::parts::{Lines, MAX_PART, Part};
use crate::json;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;

/// Writes pictures in parts. Memory is needed for one part.
#[derive(Debug)]
pub struct PhotoWriter {
    header: String,
    limit: usize,
    lines: Lines,
}

impl PhotoWriter {
    /// A writer of one book's pictures.
    #[must_use]
    pub fn new(header: PhotoHeader) -> Self {
        Self::with_limit(header, MAX_PART)
    }

    /// The same with parts of at most so many bytes, as long as one picture fits.
    #[must_use]
    pub fn with_limit(header: PhotoHeader, limit: usize) -> Self {
        let header = json::ordered(&[
            ("format", json::write(&FORMAT)),
            ("version", json::write(&VERSION)),
            ("book", json::write(&header.book)),
            ("sender", json::write(&header.sender)),
        ]);
        Self {
            header,
            limit,
            lines: Lines::default(),
        }
    }

    /// Takes a picture; `sha256` is that of its bytes. Gives the part before it when that is full.
    pub fn photo(&mut self, sha256: &str, mime: &str, bytes: &[u8]) -> Option<Part> {
        let mut lines = Vec::new();
        let mut rest = bytes;
        loop {
            let (piece, after) = rest.split_at(rest.len().min(ON_A_LINE));
            rest = after;
            lines.push(json::ordered(&[
                ("sha256", json::write(&sha256)),
                ("mime", json::write(&mime)),
                ("n", json::write(&(lines.len() + 1))),
                ("last", json::write(&rest.is_empty())),
                ("data", json::write(&BASE64.encode(piece))),
            ]));
            if rest.is_empty() {
                break;
            }
        }
        let all = lines.iter().map(|line| line.len() + 1).sum();
        let is_full =
            !self.lines.is_empty() && !self.lines.has_room(all, self.header.len(), self.limit);
        let full = is_full.then(|| self.lines.close(&self.header));
        for line in &lines {
            self.lines.push(line);
        }
        full
    }

    /// The last part; none when there was no picture.
    #[must_use]
    pub fn finish(mut self) -> Option<Part> {
        (!self.lines.is_empty()).then(|| self.lines.close(&self.header))
    }
}
